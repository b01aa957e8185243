/* Versions and statuses: static texts, and NULL for what is no status. */
#include "check.h"

int main(void)
{
    CHECK(strcmp(dryfit_version(), DRYFIT_VERSION) == 0);
    CHECK(dryfit_abi_version() == DRYFIT_ABI_VERSION);
    char parts[32];
    snprintf(parts, sizeof parts, "%d.%d.%d", (int)DRYFIT_VERSION_MAJOR, (int)DRYFIT_VERSION_MINOR, (int)DRYFIT_VERSION_PATCH);
    CHECK(strcmp(parts, DRYFIT_VERSION) == 0);

    CHECK(strcmp(dryfit_status_name(DRYFIT_OK), "ok") == 0);
    CHECK(strcmp(dryfit_status_name(DRYFIT_NULL_POINTER), "null pointer") == 0);
    int known = 0;
    for (dryfit_status status = -2000; status <= 2000; status++) {
        const char *name = dryfit_status_name(status);
        const char *text = dryfit_status_text(status);
        CHECK((name == NULL) == (text == NULL));
        if (name != NULL) {
            CHECK(strlen(name) > 1 && strlen(text) > 10);
            CHECK(name == dryfit_status_name(status));
            known++;
        }
    }
    CHECK(known > 50);
    CHECK(dryfit_status_name(INT32_MIN) == NULL && dryfit_status_text(INT32_MAX) == NULL);
    return checked();
}
