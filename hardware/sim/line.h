/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The serial line: the processor's UART on one side, a pseudo-terminal on the
 * other, and what can go wrong in between. */
#ifndef LINE_H
#define LINE_H

#include "world.h"

struct line {
    struct world *world;
    int master;
    int slave; /* kept open, so that a host may come and go */
    char name[64];
    double flip;     /* chance that a bit of a byte is turned */
    double lose;     /* chance that a byte is lost */
    bool check_baud; /* whether the host's speed matters, as on a real line */
    bool heard;      /* a byte has come from the host */
    bool halted;     /* nothing passes any more */
    uint64_t from_host; /* bytes read from the terminal */
    uint64_t to_host;   /* bytes written to it */
    unsigned dropped;   /* because nobody read them */
    unsigned flipped;
    unsigned lost;
    uint8_t in[4096]; /* on their way to the processor */
    size_t in_size;
    size_t in_at;
    uint8_t out[65536]; /* on their way to the host */
    size_t out_size;
    bool feeding;
};

void line_open(struct line *line, struct world *world, const char *link);
void line_close(struct line *line, const char *link);
void line_attach(struct line *line);
/* Takes what the host has written; with `wanted`, waits until that many have come. */
void line_take(struct line *line, uint64_t wanted);
/* Gives the host what it can take; with `all`, waits until it took everything. */
void line_give(struct line *line, bool all);
/* Throws away what came and was not fed: a boot loader hears nothing. */
void line_ignore(struct line *line);

#endif
