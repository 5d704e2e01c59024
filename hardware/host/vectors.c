/* Reads the vectors that the Python tests read too, and wants the same bytes.
 *
 * Usage: vectors FOLDER. Prints what it checked; exit code 1 on the first difference.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "wire.h"

#define LINE_MAX 400000
#define BYTES_MAX (LINE_MAX / 2)

static char line[LINE_MAX];
static uint8_t first[BYTES_MAX];
static uint8_t second[BYTES_MAX];
static uint8_t sent[BYTES_MAX];
static size_t sent_size;

static void put(void *context, const uint8_t *bytes, uint8_t size) {
    (void)context;
    memcpy(sent + sent_size, bytes, size);
    sent_size += size;
}

static size_t from_hex(const char *text, uint8_t *bytes) {
    size_t size = strlen(text) / 2;
    for (size_t i = 0; i < size; i++) {
        unsigned value = 0;
        if (sscanf(text + 2 * i, "%2x", &value) != 1) {
            fprintf(stderr, "no hex: %s\n", text);
            exit(1);
        }
        bytes[i] = (uint8_t)value;
    }
    return size;
}

static void want(bool met, const char *name, const char *what) {
    if (!met) {
        fprintf(stderr, "%s: %s\n", name, what);
        exit(1);
    }
}

static FILE *opened(const char *folder, const char *name) {
    char path[4096];
    (void)snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        perror(path);
        exit(1);
    }
    return file;
}

/* The next line's fields, comments and the heading passed over; false at the end. */
static bool next_row(FILE *file, char **fields, int wanted) {
    while (fgets(line, sizeof line, file) != NULL) {
        line[strcspn(line, "\r\n")] = '\0';
        if (line[0] == '#' || strncmp(line, "name,", 5) == 0 || line[0] == '\0') {
            continue;
        }
        char *rest = line;
        for (int i = 0; i < wanted; i++) {
            fields[i] = rest == NULL ? NULL : strsep(&rest, ",");
        }
        return fields[wanted - 1] != NULL;
    }
    return false;
}

/* What the reader says of all of `bytes`, with none of its state left over. */
static enum wire_event judged(struct wire_reader *reader, const uint8_t *bytes,
                              size_t size) {
    enum wire_event event = WIRE_NOTHING;
    for (size_t i = 0; i < size; i++) {
        event = wire_read(reader, bytes[i]);
    }
    return event;
}

static int check_frames(const char *folder) {
    FILE *file = opened(folder, "frames.csv");
    char *fields[3];
    struct wire_reader reader = {0};
    int checked = 0;
    while (next_row(file, fields, 3)) {
        size_t inner = from_hex(fields[1], first);
        size_t wire = from_hex(fields[2], second);
        if (inner > WIRE_RAW_MAX) {
            continue; /* a recording's, never on a line */
        }
        uint8_t bytes[WIRE_RAW_MAX];
        struct wire_frame frame;
        uint32_t sequence = first[2] | (uint32_t)first[3] << 8 |
                            (uint32_t)first[4] << 16 | (uint32_t)first[5] << 24;
        wire_begin(&frame, bytes, sizeof bytes, first[0], sequence);
        wire_bytes(&frame, first + WIRE_HEAD,
                   (uint8_t)(inner - WIRE_HEAD - WIRE_CRC));
        uint8_t raw = wire_end(&frame);
        want(raw == inner && memcmp(bytes, first, inner) == 0, fields[0], "built");
        sent_size = 0;
        wire_send(bytes, raw, put, NULL);
        want(sent_size == wire && memcmp(sent, second, wire) == 0, fields[0], "sent");
        want(judged(&reader, second, wire) == WIRE_FRAME, fields[0], "read");
        want(reader.size == inner, fields[0], "size as read");
        size_t kept = inner < WIRE_KEPT ? inner : WIRE_KEPT;
        want(memcmp(reader.kept, first, kept) == 0, fields[0], "bytes as read");
        checked++;
    }
    (void)fclose(file);
    return checked;
}

static int check_refused(const char *folder) {
    FILE *file = opened(folder, "refused.csv");
    char *fields[3];
    struct wire_reader reader = {0};
    int checked = 0;
    while (next_row(file, fields, 3)) {
        size_t wire = from_hex(fields[1], second);
        if (strcmp(fields[2], "content") == 0) {
            continue; /* the frame is sound; what it says is not the wire's business */
        }
        want(judged(&reader, second, wire) == WIRE_DAMAGE, fields[0], "not refused");
        checked++;
    }
    (void)fclose(file);
    return checked;
}

static int check_crc(const char *folder) {
    FILE *file = opened(folder, "crc32.csv");
    char *fields[3];
    int checked = 0;
    while (next_row(file, fields, 3)) {
        size_t size = from_hex(fields[1], first);
        uint32_t crc = WIRE_CRC_BEGIN;
        for (size_t i = 0; i < size; i++) {
            crc = wire_crc(crc, first[i]);
        }
        want((uint32_t)~crc == strtoul(fields[2], NULL, 16), fields[0], "CRC");
        checked++;
    }
    (void)fclose(file);
    return checked;
}

static int check_cobs(const char *folder) {
    FILE *file = opened(folder, "cobs.csv");
    char *fields[3];
    int checked = 0;
    while (next_row(file, fields, 3)) {
        size_t size = from_hex(fields[1], first);
        size_t wire = from_hex(fields[2], second);
        if (size < 1 || size > WIRE_RAW_MAX) {
            continue; /* longer than a line's frame */
        }
        sent_size = 0;
        wire_send(first, (uint8_t)size, put, NULL);
        want(sent_size == wire + 1 && memcmp(sent, second, wire) == 0, fields[0],
             "COBS");
        checked++;
    }
    (void)fclose(file);
    return checked;
}

int main(int count, char **arguments) {
    if (count != 2) {
        fprintf(stderr, "usage: %s FOLDER\n", arguments[0]);
        return 2;
    }
    const char *folder = arguments[1];
    int frames = check_frames(folder);
    int refused = check_refused(folder);
    int crcs = check_crc(folder);
    int cobs = check_cobs(folder);
    want(frames > 15 && refused > 5 && crcs > 1 && cobs > 5, folder, "too few rows");
    printf("vectors: %d frames, %d refused, %d CRC, %d COBS\n", frames, refused, crcs,
           cobs);
    return 0;
}
