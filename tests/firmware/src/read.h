/* The library's structs from the numbers of a line, in the order of their fields. Lengths are nanometres. */
#ifndef READ_H
#define READ_H

#include "dryfit.h"
#include "line.h"

/* kind count parity first numerator denominator ends width spacing end least */
void read_joint(line *line, dryfit_joint *joint);
/* JOINT run thickness depth flank cheek tip kerf x y side */
void read_edge(line *line, dryfit_edge *edge);
/* x y z thickness JOINT flank cheek tip kerf x y top */
void read_box(line *line, dryfit_flat_box *box);
/* trail swivel-above overcut */
void read_knife(line *line, dryfit_knife *knife);
/* tool dynamic feed plunge height depth turn-depth power speed */
void read_machine(line *line, dryfit_machine *machine);

#endif
