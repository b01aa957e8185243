#include <dryfit.h>

#include <stdio.h>

uint32_t second_sum(uint32_t end);

int main(void)
{
    printf("%s, and %u from the other\n", dryfit_version(), (unsigned)second_sum(4));
    return 0;
}
