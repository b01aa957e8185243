#include "read.h"

void read_joint(line *line, dryfit_joint *joint) {
    joint->kind = line_count(line);
    joint->count = line_count(line);
    joint->parity = line_count(line);
    joint->first = line_count(line);
    joint->numerator = line_count(line);
    joint->denominator = line_count(line);
    joint->ends = line_count(line);
    joint->width = line_number(line);
    joint->spacing = line_number(line);
    joint->end = line_number(line);
    joint->least = line_number(line);
}

static void read_fit(line *line, dryfit_fit *fit) {
    fit->flank = line_number(line);
    fit->cheek = line_number(line);
    fit->tip = line_number(line);
}

static void read_point(line *line, dryfit_point *point) {
    point->x = line_number(line);
    point->y = line_number(line);
}

void read_edge(line *line, dryfit_edge *edge) {
    read_joint(line, &edge->joint);
    edge->run = line_number(line);
    edge->thickness = line_number(line);
    edge->depth = line_number(line);
    read_fit(line, &edge->fit);
    edge->kerf = line_number(line);
    read_point(line, &edge->at);
    edge->side = line_count(line);
}

void read_box(line *line, dryfit_flat_box *box) {
    for (int axis = 0; axis < 3; axis++) box->outside[axis] = line_number(line);
    box->thickness = line_number(line);
    read_joint(line, &box->fingers);
    read_fit(line, &box->fit);
    box->kerf = line_number(line);
    read_point(line, &box->at);
    box->top = line_count(line);
}

void read_knife(line *line, dryfit_knife *knife) {
    knife->trail = line_number(line);
    knife->swivel_above = line_number(line);
    knife->overcut = line_number(line);
}

void read_machine(line *line, dryfit_machine *machine) {
    machine->tool = line_count(line);
    machine->dynamic = line_count(line);
    machine->feed = line_number(line);
    machine->plunge = line_number(line);
    machine->height = line_number(line);
    machine->depth = line_number(line);
    machine->turn_depth = line_number(line);
    machine->power = line_number(line);
    machine->speed = line_number(line);
}
