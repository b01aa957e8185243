#include <dryfit.h>

#include <stdio.h>

uint32_t second_sum(uint32_t end);

int main(int argc, char **argv)
{
    (void)argv;
    dryfit_assembly *box = NULL;
    const dryfit_box asked = {.size = {110 * DRYFIT_MM, 85 * DRYFIT_MM, 60 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM};
    size_t boards = 0;
    if (dryfit_assembly_of_box(&asked, &box, NULL) != DRYFIT_OK || dryfit_assembly_count(box, &boards, NULL) != DRYFIT_OK) {
        return 1;
    }
    dryfit_assembly_free(&box);
    printf("%zu boards, and %u from the other\n", boards, (unsigned)second_sum(argc > 1 ? 101 : 4));
    return 0;
}
