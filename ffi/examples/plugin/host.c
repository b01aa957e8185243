/* A vector editor, as far as a plugin sees one: it opens the plugin, hands it a selection, and puts the path into a document.
 *
 *     cc host.c -ldl -o host && ./host ./plugin.so 400 250 160 12 0.6 px > front.svg */
#include "plugin.h"

#include <dlfcn.h>
#include <stdio.h>
#include <stdlib.h>

static int fail(const char *words)
{
    fprintf(stderr, "%s\n", words);
    return 1;
}

int main(int argc, char **argv)
{
    if (argc != 8) {
        return fail("usage: host PLUGIN WIDTH HEIGHT DEPTH THICKNESS KERF UNIT");
    }
    const plugin_request request = {.width = strtod(argv[2], NULL),
                                    .height = strtod(argv[3], NULL),
                                    .depth = strtod(argv[4], NULL),
                                    .thickness = strtod(argv[5], NULL),
                                    .kerf = strtod(argv[6], NULL),
                                    .unit = argv[7]};

    void *library = dlopen(argv[1], RTLD_NOW | RTLD_LOCAL);
    if (library == NULL) {
        return fail(dlerror());
    }
    const plugin_interface *found = dlsym(library, PLUGIN_SYMBOL);
    if (found == NULL || found->abi != PLUGIN_ABI) {
        dlclose(library);
        return fail("this is no plugin that I know how to call");
    }

    /* How much memory, then the path. */
    char words[400] = "";
    size_t needed = 0;
    char *path = NULL;
    int32_t status = found->front(&request, NULL, 0, &needed, words, sizeof words);
    if (status == 0) {
        path = malloc(needed);
        status = path == NULL ? -1 : found->front(&request, path, needed, &needed, words, sizeof words);
    }
    if (status == 0) {
        printf("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%s%s\" height=\"%s%s\" viewBox=\"0 0 %s %s\" overflow=\"visible\">\n", argv[2], argv[7], argv[3],
               argv[7], argv[2], argv[3]);
        printf("<path fill=\"none\" stroke=\"black\" stroke-width=\"%s\" d=\"%s\"/>\n</svg>\n", argv[6], path);
    } else {
        fprintf(stderr, "%s: %s (%d)\n", found->name, words, (int)status);
    }
    free(path);
    dlclose(library);
    return status == 0 ? 0 : 1;
}
