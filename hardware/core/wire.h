/* The wire: frames to bytes and bytes to frames. PROTOCOL.md is the norm.
 *
 * Rules:
 * - The caller owns all memory; there is no state but in the structs below.
 * - Writing builds a frame whole in the caller's buffer, then sends it through
 *   COBS. The caller's buffer holds the longest frame that it makes; nothing is ever
 *   written beyond it.
 * - Reading takes one byte at a time and keeps only the beginning of a frame, all
 *   that the commands need; the rest is checked by its CRC and forgotten. So the
 *   longest frame costs no more memory than the shortest. Nothing from outside is
 *   trusted before the CRC was right.
 */
#ifndef WIRE_H
#define WIRE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Version of the protocol; PROTOCOL.md, section 9, says when each part grows. */
#define WIRE_MAJOR 1
#define WIRE_MINOR 0

#define WIRE_RAW_MAX 254 /* type to CRC: one COBS block */
#define WIRE_RAW_MIN 10  /* a frame without payload */
#define WIRE_HEAD 6      /* type, flags, sequence */
#define WIRE_CRC 4
#define WIRE_KEPT 11 /* of a frame that is read: head, token, a 32-bit value */
/* Bytes on the wire: one COBS code, the frame, the delimiter. */
#define WIRE_SENT(raw) ((raw) + 2)

enum wire_type {
    WIRE_IDENTITY = 0x01,
    WIRE_SAMPLES = 0x02,
    WIRE_STATUS = 0x03,
    WIRE_REPLY = 0x04,
    WIRE_HOST_FIRST = 0x41, /* types from here to WIRE_HOST_LAST are a host's */
    WIRE_IDENTIFY = 0x41,
    WIRE_START = 0x42,
    WIRE_STOP = 0x43,
    WIRE_RATE = 0x44,
    WIRE_GAIN = 0x45,
    WIRE_HOST_LAST = 0x7F
};

/* CRC-32/ISO-HDLC, register form: begin with WIRE_CRC_BEGIN, feed bytes, and take
 * the complement. Fed with a frame and its own CRC it ends at WIRE_CRC_SOUND. */
#define WIRE_CRC_BEGIN 0xFFFFFFFFUL
#define WIRE_CRC_SOUND 0xDEBB20E3UL
uint32_t wire_crc(uint32_t crc, uint8_t byte);

/* A frame under construction. */
struct wire_frame {
    uint8_t *bytes;
    uint8_t capacity; /* at most WIRE_RAW_MAX */
    uint8_t size;     /* used so far; beyond capacity nothing is written */
};

void wire_begin(struct wire_frame *frame, uint8_t *bytes, uint8_t capacity,
                uint8_t type, uint32_t sequence);
void wire_u8(struct wire_frame *frame, uint8_t value);
void wire_u32(struct wire_frame *frame, uint32_t value);
/* Bytes as they are; `size` may be 0. */
void wire_bytes(struct wire_frame *frame, const uint8_t *bytes, uint8_t size);
/* Length in one byte, then the letters; at most 32 are taken. */
void wire_text(struct wire_frame *frame, const char *text);
/* Puts the CRC behind it and returns the raw size. */
uint8_t wire_end(struct wire_frame *frame);

/* Takes bytes to be sent, in order; at least one. */
typedef void (*wire_put)(void *context, const uint8_t *bytes, uint8_t size);
/* Sends `size` raw bytes, 1 to WIRE_RAW_MAX, through COBS, and the delimiter:
 * WIRE_SENT(size) bytes, one fewer where 254 bytes hold no zero. */
void wire_send(const uint8_t *raw, uint8_t size, wire_put put, void *context);

/* What a byte brought. */
enum wire_event {
    WIRE_NOTHING, /* more is to come, or an empty frame */
    WIRE_FRAME,   /* a sound frame: look at `kept` and `size` now */
    WIRE_DAMAGE   /* bytes that held no sound frame; nothing of them may be used */
};

/* Bytes to frames. All zero is a good beginning. */
struct wire_reader {
    uint8_t kept[WIRE_KEPT]; /* the frame's first bytes */
    uint8_t size;            /* raw bytes so far */
    uint8_t left;            /* bytes left in the COBS block */
    bool zero_after;         /* a zero stands after the block, unless all ends */
    bool begun;              /* something came since the last delimiter */
    bool too_long;           /* more than WIRE_RAW_MAX raw bytes came */
    uint32_t crc;
};

enum wire_event wire_read(struct wire_reader *reader, uint8_t byte);

#endif
