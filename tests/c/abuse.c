/* An editor that hands a plugin whatever it has: numbers that are none, sizes that nothing can have, memory that is too small; and opens it again and again. */
#include "../../ffi/examples/plugin/plugin.h"
#include "programs/check.h"

#include <dlfcn.h>
#include <math.h>

static const plugin_interface *open_plugin(const char *name, void **library)
{
    *library = dlopen(name, RTLD_NOW | RTLD_LOCAL);
    if (*library == NULL) {
        fprintf(stderr, "%s\n", dlerror());
        exit(2);
    }
    const plugin_interface *found = dlsym(*library, PLUGIN_SYMBOL);
    CHECK(found != NULL && found->abi == PLUGIN_ABI);
    return found;
}

/* The plugin refuses, says why in the words wanted, writes no path, and does so with no room for words as well. */
static void refused(const plugin_interface *plugin, plugin_request request, int32_t expected, const char *wanted)
{
    char path[16], words[300] = "", few[5];
    memset(path, 0x55, sizeof path);
    size_t needed = 0;
    const int32_t status = plugin->front(&request, path, sizeof path, &needed, words, sizeof words);
    if (status != expected || strstr(words, wanted) == NULL) {
        fprintf(stderr, "expected %d and '%s', got %d: %s\n", (int)expected, wanted, (int)status, words);
        check_failures++;
    }
    for (size_t i = 0; i < sizeof path; i++) {
        CHECK(path[i] == 0x55);
    }
    CHECK(plugin->front(&request, NULL, 0, &needed, NULL, 0) == expected);
    CHECK(plugin->front(&request, NULL, 0, &needed, few, sizeof few) == expected && memcmp(few, words, 4) == 0 && few[4] == '\0');
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        return 2;
    }
    void *library;
    const plugin_interface *plugin = open_plugin(argv[1], &library);
    const plugin_request good = {.width = 400, .height = 250, .depth = 160, .thickness = 12, .kerf = 0.6, .unit = "px"};
    plugin_request bad = good;

    static const double no_numbers[] = {NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < 3; i++) {
        bad = good, bad.width = no_numbers[i];
        refused(plugin, bad, DRYFIT_NOT_FINITE, "width: ");
        bad = good, bad.kerf = no_numbers[i];
        refused(plugin, bad, DRYFIT_NOT_FINITE, "kerf: ");
    }
    static const double no_sizes[] = {0, -0.0, -1, -400, 5e-324};
    for (size_t i = 0; i < sizeof no_sizes / sizeof *no_sizes; i++) {
        bad = good, bad.width = no_sizes[i];
        CHECK(plugin->front(&bad, NULL, 0, &(size_t){0}, NULL, 0) != 0);
        bad = good, bad.height = no_sizes[i];
        CHECK(plugin->front(&bad, NULL, 0, &(size_t){0}, NULL, 0) != 0);
        bad = good, bad.thickness = no_sizes[i];
        refused(plugin, bad, DRYFIT_OUT_OF_RANGE, "thickness: ");
    }
    bad = good, bad.width = 1e300;
    refused(plugin, bad, DRYFIT_OUT_OF_RANGE, "width: ");
    bad = good, bad.height = 37796; /* a little over 10 m */
    refused(plugin, bad, DRYFIT_OUT_OF_RANGE, "height: ");
    bad = good, bad.kerf = -0.1;
    refused(plugin, bad, DRYFIT_OUT_OF_RANGE, "kerf: ");
    bad = good, bad.kerf = 40;
    refused(plugin, bad, DRYFIT_SLOT_CLOSES, "front: ");
    bad = good, bad.unit = "ell";
    refused(plugin, bad, DRYFIT_OUT_OF_RANGE, "unit must be px");
    bad = good, bad.unit = NULL;
    refused(plugin, bad, DRYFIT_NULL_POINTER, "forgot");

    /* NULL, and too little room. */
    size_t needed = 0;
    char words[300], *path;
    CHECK(plugin->front(NULL, NULL, 0, &needed, words, sizeof words) == DRYFIT_NULL_POINTER);
    CHECK(plugin->front(&good, NULL, 0, NULL, NULL, 0) == DRYFIT_NULL_POINTER);
    CHECK(plugin->front(&good, NULL, 10, &needed, NULL, 0) == DRYFIT_NULL_POINTER);
    CHECK(plugin->front(&good, NULL, 0, &needed, NULL, 0) == 0 && needed > 100);
    for (size_t cap = 0; cap < needed; cap += cap + 1 < needed && cap > 40 ? needed - 1 - cap : 1) {
        size_t told = 0;
        path = exactly(cap);
        CHECK(plugin->front(&good, path, cap, &told, words, sizeof words) == DRYFIT_BUFFER_TOO_SMALL && told == needed);
        for (size_t i = 0; i < cap; i++) {
            CHECK((unsigned char)path[i] == 0xAA);
        }
        free(path);
    }
    path = exactly(needed);
    CHECK(plugin->front(&good, path, needed, &needed, NULL, 0) == 0 && strlen(path) + 1 == needed && path[0] == 'M');

    /* Unloaded and loaded again, it says the same; nothing is left behind. */
    for (int again = 0; again < 50; again++) {
        CHECK(dlclose(library) == 0);
        plugin = open_plugin(argv[1], &library);
        char *second = exactly(needed);
        CHECK(plugin->front(&good, second, needed, &needed, NULL, 0) == 0 && strcmp(path, second) == 0);
        free(second);
    }
    free(path);
    dlclose(library);
    return checked();
}
