/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "line.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <poll.h>
#include <pty.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include "avr_uart.h"
#include "corrections.h"

#define WAIT_MS 5000
#define BAUD_TOLERANCE 0.04 /* 8N1 is sampled in the middle of the tenth bit */
#define BACKLOG 16384       /* a paced board throws away what nobody reads */

/* The speed that the host chose: in the kernel's own form, for any number. */
struct kernel_termios {
    unsigned iflag, oflag, cflag, lflag;
    unsigned char line;
    unsigned char control[19];
    unsigned ispeed, ospeed;
};
#define GET_KERNEL_TERMIOS 0x802C542AUL

static void fail(const char *what) {
    perror(what);
    exit(2);
}

void line_open(struct line *line, struct world *world, const char *link) {
    memset(line, 0, sizeof *line);
    line->world = world;
    if (openpty(&line->master, &line->slave, line->name, NULL, NULL) != 0) {
        fail("simulator: no pseudo-terminal");
    }
    struct termios raw;
    if (tcgetattr(line->slave, &raw) != 0) {
        fail("simulator: pseudo-terminal");
    }
    cfmakeraw(&raw);
    if (tcsetattr(line->slave, TCSANOW, &raw) != 0 ||
        fcntl(line->master, F_SETFL, O_NONBLOCK) != 0) {
        fail("simulator: pseudo-terminal");
    }
    if (link != NULL) {
        (void)unlink(link);
        if (symlink(line->name, link) != 0) {
            fail(link);
        }
    }
}

void line_close(struct line *line, const char *link) {
    if (link != NULL) {
        (void)unlink(link);
    }
    (void)close(line->master);
    (void)close(line->slave);
}

static bool speeds_agree(const struct line *line) {
    struct kernel_termios state;
    if (!line->check_baud || ioctl(line->master, GET_KERNEL_TERMIOS, &state) != 0) {
        return true;
    }
    double board = 10 * CPU_HZ / uart_byte_cycles(line->world->avr);
    return fabs(state.ospeed - board) <= BAUD_TOLERANCE * board;
}

/* One byte through the line; false where it is lost. */
static bool pass(struct line *line, uint8_t *byte) {
    struct world *world = line->world;
    if (line->halted) {
        return false;
    }
    if (!speeds_agree(line)) {
        *byte = (uint8_t)(256 * world_chance(world));
        return true;
    }
    if (line->lose > 0 && world_chance(world) < line->lose) {
        line->lost++;
        return false;
    }
    if (line->flip > 0 && world_chance(world) < line->flip) {
        *byte ^= (uint8_t)(1U << (unsigned)(8 * world_chance(world)));
        line->flipped++;
    }
    return true;
}

static void uart_sent(struct avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    struct line *line = param;
    uint8_t byte = (uint8_t)value;
    if (!pass(line, &byte)) {
        return;
    }
    if (line->out_size == sizeof line->out) {
        line->dropped++;
        return;
    }
    line->out[line->out_size++] = byte;
}

/* The next byte reaches the processor, no faster than the line is. */
static avr_cycle_count_t feed(avr_t *avr, avr_cycle_count_t when, void *param) {
    struct line *line = param;
    while (line->in_at < line->in_size) {
        uint8_t byte = line->in[line->in_at++];
        if (pass(line, &byte)) {
            avr_raise_irq(find_uart(avr)->io.irq + UART_IRQ_INPUT, byte);
            return when + uart_byte_cycles(avr);
        }
    }
    line->in_at = line->in_size = 0;
    line->feeding = false;
    return 0;
}

void line_attach(struct line *line) {
    avr_irq_register_notify(find_uart(line->world->avr)->io.irq + UART_IRQ_OUTPUT,
                            uart_sent, line);
}

static void wait_for(const struct line *line, short events) {
    struct pollfd descriptor = {.fd = line->master, .events = events};
    if (poll(&descriptor, 1, WAIT_MS) <= 0) {
        fprintf(stderr, "simulator: the host does not keep up its side\n");
        exit(3);
    }
}

void line_take(struct line *line, uint64_t wanted) {
    for (;;) {
        size_t space = sizeof line->in - line->in_size;
        ssize_t got = space ? read(line->master, line->in + line->in_size, space) : 0;
        if (got > 0) {
            line->in_size += (size_t)got;
            line->from_host += (uint64_t)got;
            line->heard = true;
            continue;
        }
        if (space == 0 || line->from_host >= wanted) {
            break;
        }
        wait_for(line, POLLIN);
    }
    if (line->in_size > line->in_at && !line->feeding) {
        avr_t *avr = line->world->avr;
        line->feeding = true;
        avr_cycle_timer_register(avr, uart_byte_cycles(avr), feed, line);
    }
}

void line_ignore(struct line *line) {
    line->in_at = line->in_size = 0;
}

void line_give(struct line *line, bool all) {
    size_t given = 0;
    while (given < line->out_size) {
        ssize_t put = write(line->master, line->out + given, line->out_size - given);
        if (put > 0) {
            given += (size_t)put;
            line->to_host += (uint64_t)put;
        } else if (errno != EAGAIN && errno != EINTR) {
            fail("simulator: pseudo-terminal");
        } else if (all) {
            wait_for(line, POLLOUT);
        } else {
            break;
        }
    }
    line->out_size -= given;
    memmove(line->out, line->out + given, line->out_size);
    if (!all && line->out_size > BACKLOG) {
        line->dropped += (unsigned)line->out_size;
        line->out_size = 0;
    }
}
