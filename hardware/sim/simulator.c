/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board in a box: the firmware as it would be flashed, run by libsimavr, with
 * simulated ADC chips and load cells, its serial line on a pseudo-terminal.
 *
 * This tool links libsimavr, which is under the GPL version 3. See README.md here.
 */
#include <getopt.h>
#include <math.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "corrections.h"
#include "hx711.h"
#include "line.h"
#include "sim_elf.h"
#include "sim_io.h"
#include "spi_adc.h"
#include "world.h"

#define CYCLES_PER_US 16U
#define PACE_US 1000U
#define RAM_START 0x100U
#define PAINT 0xA5

static const char usage[] =
    "usage: simulator --firmware ELF --adc hx711|spi [options]\n"
    "  --link PATH        make PATH point to the terminal\n"
    "  --profile FILE     scripted counts; see README.md\n"
    "  --noise COUNTS     standard deviation added to them\n"
    "  --truth FILE       write each conversion: cell,number,us,counts,settled\n"
    "  --stats FILE       write what was seen of the firmware, as JSON\n"
    "  --speed 1|0        as fast as a real board (1), or as fast as it can from the\n"
    "                     first byte of the host on (0)\n"
    "  --lockstep         run as told on standard input: `run MICROSECONDS HOSTBYTES`\n"
    "                     is answered by `ok SIMTIME TXBYTES`; `quit` ends\n"
    "  --boot-ms MS       a boot loader that hears nothing comes first\n"
    "  --ppm0 P --ppm1 P  how fast each chip's oscillator is, parts in a million\n"
    "  --dead0 S --dead1 S    from when on a chip gives no data\n"
    "  --open0 S --open1 S    from when on a cell is disconnected\n"
    "  --brownout S       when the SPI chip loses its power for a moment\n"
    "  --halt S           from when on the whole board gives nothing\n"
    "  --flip P --lose P  chance of a turned bit, of a lost byte, for each byte\n"
    "  --seed N           of that chance\n"
    "  --baud-check       a host at another speed sees and sends noise\n";

struct options {
    const char *firmware, *adc, *link, *profile, *truth, *stats;
    double speed, boot_ms, halt_s;
    bool lockstep;
};

static struct world world;
static struct line line;
static uint64_t slept;
static double boot_left_us;
static volatile sig_atomic_t told_to_end;

static void end(int number) {
    (void)number;
    told_to_end = 1;
}

static void quiet(avr_t *avr, const int level, const char *format, va_list rest) {
    (void)avr;
    if (level <= LOG_ERROR) {
        vfprintf(stderr, format, rest);
    }
}

/* simavr would call usleep here; time is kept by `pace` alone. */
static void sleep_counted(avr_t *avr, avr_cycle_count_t cycles) {
    (void)avr;
    slept += cycles;
}

static void read_options(int count, char **arguments, struct options *options) {
    static const struct option names[] = {
        {"firmware", 1, NULL, 'f'}, {"adc", 1, NULL, 'a'},   {"link", 1, NULL, 'l'},
        {"profile", 1, NULL, 'p'},  {"noise", 1, NULL, 'n'}, {"truth", 1, NULL, 't'},
        {"stats", 1, NULL, 's'},    {"speed", 1, NULL, 'v'}, {"lockstep", 0, NULL, 'k'},
        {"boot-ms", 1, NULL, 'b'},  {"ppm0", 1, NULL, '0'},  {"ppm1", 1, NULL, '1'},
        {"dead0", 1, NULL, '2'},    {"dead1", 1, NULL, '3'}, {"open0", 1, NULL, '4'},
        {"open1", 1, NULL, '5'},    {"halt", 1, NULL, 'h'},  {"flip", 1, NULL, 'F'},
        {"lose", 1, NULL, 'L'},     {"seed", 1, NULL, 'S'},
        {"baud-check", 0, NULL, 'B'}, {"brownout", 1, NULL, 'w'}, {NULL, 0, NULL, 0}};
    int name;
    while ((name = getopt_long(count, arguments, "", names, NULL)) != -1) {
        double number = optarg != NULL ? atof(optarg) : 0;
        switch (name) {
        case 'f': options->firmware = optarg; break;
        case 'a': options->adc = optarg; break;
        case 'l': options->link = optarg; break;
        case 'p': options->profile = optarg; break;
        case 't': options->truth = optarg; break;
        case 's': options->stats = optarg; break;
        case 'v': options->speed = number; break;
        case 'k': options->lockstep = true; break;
        case 'b': options->boot_ms = number; break;
        case 'h': options->halt_s = number; break;
        case 'n': world.noise = number; break;
        case '0': world.ppm[0] = number; break;
        case '1': world.ppm[1] = number; break;
        case '2': world.dead_s[0] = number; break;
        case '3': world.dead_s[1] = number; break;
        case '4': world.open_s[0] = number; break;
        case '5': world.open_s[1] = number; break;
        case 'w': world.brownout_s = number; break;
        case 'S': world.chance = (uint64_t)number * 7919 + 1; break;
        case 'F': line.flip = number; break;
        case 'L': line.lose = number; break;
        case 'B': line.check_baud = true; break;
        default: fputs(usage, stderr); exit(2);
        }
    }
    bool known = options->adc != NULL && (strcmp(options->adc, "hx711") == 0 ||
                                          strcmp(options->adc, "spi") == 0);
    if (options->firmware == NULL || !known || optind != count) {
        fputs(usage, stderr);
        exit(2);
    }
}

static avr_t *load(const char *path, uint32_t *variables_end) {
    elf_firmware_t firmware;
    memset(&firmware, 0, sizeof firmware);
    avr_global_logger_set(quiet);
    if (elf_read_firmware(path, &firmware) != 0) {
        fprintf(stderr, "simulator: %s is no firmware\n", path);
        exit(2);
    }
    avr_t *avr = avr_make_mcu_by_name("atmega328p");
    if (avr == NULL) {
        fprintf(stderr, "simulator: this libsimavr has no atmega328p\n");
        exit(2);
    }
    avr_init(avr);
    firmware.frequency = (uint32_t)CPU_HZ;
    avr_load_firmware(avr, &firmware);
    avr->sleep = sleep_counted;
    *variables_end = RAM_START + firmware.datasize + firmware.bsssize;
    memset(avr->data + *variables_end, PAINT, avr->ramend + 1 - *variables_end);
    return avr;
}

/* RAM that the stack has ever reached: what is no longer painted. */
static unsigned stack_bytes(const avr_t *avr, uint32_t variables_end) {
    uint32_t at = variables_end;
    while (at <= avr->ramend && avr->data[at] == PAINT) {
        at++;
    }
    return (unsigned)(avr->ramend + 1 - at);
}

static bool run_until(avr_cycle_count_t cycle) {
    avr_t *avr = world.avr;
    while (avr->cycle < cycle) {
        int state = avr_run(avr);
        if (state == cpu_Done || state == cpu_Crashed) {
            fprintf(stderr, "simulator: the firmware has ended\n");
            return false;
        }
    }
    return true;
}

/* Runs for so long, the boot loader's time taken off first. */
static bool advance(double us, const struct options *options) {
    avr_t *avr = world.avr;
    if (boot_left_us > 0) {
        line_ignore(&line);
        double boot_us = fmin(us, boot_left_us);
        boot_left_us -= boot_us;
        us -= boot_us;
    }
    bool goes_on = run_until(avr->cycle + (avr_cycle_count_t)(us * CYCLES_PER_US));
    line.halted = line.halted || world_now_s(&world) >= options->halt_s;
    return goes_on;
}

static void lockstep(const struct options *options) {
    char text[128];
    double now_us = 0;
    while (fgets(text, sizeof text, stdin) != NULL) {
        unsigned long long us = 0;
        unsigned long long host_bytes = 0;
        if (strcmp(text, "quit\n") == 0) {
            return;
        }
        if (sscanf(text, "run %llu %llu", &us, &host_bytes) != 2) {
            fprintf(stderr, "simulator: not understood: %s", text);
            exit(2);
        }
        line_take(&line, host_bytes);
        if (!advance((double)us, options)) {
            return;
        }
        line_give(&line, true);
        now_us += (double)us;
        printf("ok %.0f %llu\n", now_us, (unsigned long long)line.to_host);
        (void)fflush(stdout);
    }
}

/* Until a signal ends it. */
static void paced(const struct options *options) {
    struct timespec next;
    (void)clock_gettime(CLOCK_MONOTONIC, &next);
    (void)printf("port %s\n", line.name);
    (void)fflush(stdout);
    (void)signal(SIGINT, end);
    (void)signal(SIGTERM, end);
    while (!told_to_end) {
        line_take(&line, 0);
        if (!advance(PACE_US, options)) {
            return;
        }
        bool hurries = options->speed == 0 && line.heard;
        line_give(&line, hurries);
        if (hurries) {
            continue;
        }
        next.tv_nsec += PACE_US * 1000L;
        if (next.tv_nsec >= 1000000000L) {
            next.tv_nsec -= 1000000000L;
            next.tv_sec++;
        }
        (void)clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &next, NULL);
    }
}

static void write_stats(const char *path, uint32_t variables_end) {
    FILE *file = fopen(path, "w");
    if (file == NULL) {
        perror(path);
        exit(2);
    }
    double cycles = (double)world.avr->cycle;
    fprintf(file,
            "{\"stack_bytes\": %u, \"busy\": %.4f, \"unread\": %u, "
            "\"collisions\": %u, \"misread\": %u, \"sck_high_max_us\": %.3f, "
            "\"dropped\": %u, \"flipped\": %u, \"lost\": %u}\n",
            stack_bytes(world.avr, variables_end),
            cycles > 0 ? 1 - (double)slept / cycles : 0.0, world.unread,
            world.collisions, world.misread, world.sck_high_max_us, line.dropped,
            line.flipped, line.lost);
    (void)fclose(file);
}

int main(int count, char **arguments) {
    struct options options = {.speed = 1, .halt_s = NEVER};
    struct line faults;
    uint32_t variables_end = 0;
    world_begin(&world);
    read_options(count, arguments, &options);
    faults = line;
    line_open(&line, &world, options.link);
    line.flip = faults.flip;
    line.lose = faults.lose;
    line.check_baud = faults.check_baud;
    boot_left_us = options.boot_ms * 1000;
    if (options.profile != NULL) {
        profile_read(&world.profile, options.profile);
    }
    if (options.truth != NULL) {
        world.truth = fopen(options.truth, "w");
        if (world.truth == NULL) {
            perror(options.truth);
            return 2;
        }
    }
    world.avr = load(options.firmware, &variables_end);
    correct_uart(world.avr);
    correct_spi(world.avr);
    line_attach(&line);
    if (strcmp(options.adc, "spi") == 0) {
        spi_adc_attach(&world);
    } else {
        hx711_attach(&world);
    }
    if (options.lockstep) {
        printf("port %s\n", line.name);
        (void)fflush(stdout);
        lockstep(&options);
    } else {
        paced(&options);
    }
    if (options.stats != NULL) {
        write_stats(options.stats, variables_end);
    }
    if (world.truth != NULL) {
        (void)fclose(world.truth);
    }
    line_close(&line, options.link);
    return 0;
}
