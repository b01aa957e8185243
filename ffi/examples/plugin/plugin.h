/* What a vector editor and a plugin say to each other here. It is the editor's header: nothing of the library shows in it. */
#ifndef PLUGIN_H
#define PLUGIN_H

#include <stddef.h>
#include <stdint.h>

/* The plugin is asked for this symbol, and must know this number. */
#define PLUGIN_SYMBOL "panel_plugin"
#define PLUGIN_ABI 1

/* The selection becomes the front of a box. All numbers are in the document's unit, as the editor has them: they may be anything. */
typedef struct plugin_request {
    double width, height; /* of the selection */
    double depth;         /* of the box behind it */
    double thickness;     /* of the board */
    double kerf;          /* of the cutter */
    const char *unit;     /* the document's: "px" (96 to the inch), "pt", "pc", "in", "cm", "mm" */
} plugin_request;

typedef struct plugin_interface {
    int32_t abi;
    const char *name;
    /* Writes SVG path data, in the document's unit and with y down, whose origin is the selection's upper left corner; and a zero after it.
     * Returns 0, or another number and what is wrong in `words`. `needed` is how large `path` has to be; nothing but that is written if it is larger
     * than `cap`. `words` is cut to `words_cap`. Every pointer may be NULL. */
    int32_t (*front)(const plugin_request *request, char *path, size_t cap, size_t *needed, char *words, size_t words_cap);
} plugin_interface;

#endif
