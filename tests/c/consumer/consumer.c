/* A program of somebody else: it knows the library only from the header that it found. What pkg-config and CMake define may be said here as well. */
#define DRYFIT_HOST
#include <dryfit.h>

#include <stdio.h>
#include <string.h>

int main(void)
{
    if (strcmp(dryfit_version(), DRYFIT_VERSION) != 0 || dryfit_abi_version() != DRYFIT_ABI_VERSION) {
        return 1;
    }
    printf("dryfit %s: %s\n", dryfit_version(), dryfit_status_name(0));
    return 0;
}
