/* The words that a request can begin with. Each reads the rest of the line, calls the library and streams its answer. */
#ifndef WORDS_H
#define WORDS_H

#include "line.h"

typedef struct word {
    const char *name;
    void (*answer)(line *line);
} word;

/* length TEXT */
void answer_length(line *line);
/* pattern JOINT run thickness: the owner of the first span, then the boundaries */
void answer_pattern(line *line);
/* vertices EDGE, panel FACE BOX: x, y and role of each */
void answer_vertices(line *line);
void answer_panel(line *line);
/* machine ...: what the programs that follow are made for */
void answer_machine(line *line);
/* edge EDGE, fingers EDGE, box BOX: G-code; fingers knows no other joint; of a box one program for each panel */
void answer_edge(line *line);
void answer_fingers(line *line);
void answer_box(line *line);
/* drag KNIFE EDGE, dragbox KNIFE BOX: the same for the axis of a trailing blade */
void answer_drag(line *line);
void answer_dragbox(line *line);
/* hpgl, svg, dxf, path EDGE: the edge in other formats */
void answer_hpgl(line *line);
void answer_svg(line *line);
void answer_dxf(line *line);
void answer_path(line *line);

#endif
