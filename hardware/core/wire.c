#include "wire.h"

#include "platform.h"

/* Half a byte at a time: 64 bytes of table, where a whole byte would take 1024. */
static const uint32_t crc_of_nibble[16] IN_FLASH = {
    0x00000000, 0x1DB71064, 0x3B6E20C8, 0x26D930AC, 0x76DC4190, 0x6B6B51F4,
    0x4DB26158, 0x5005713C, 0xEDB88320, 0xF00F9344, 0xD6D6A3E8, 0xCB61B38C,
    0x9B64C2B0, 0x86D3D2D4, 0xA00AE278, 0xBDBDF21C};

uint32_t wire_crc(uint32_t crc, uint8_t byte) {
    crc ^= byte;
    crc = FLASH_U32(&crc_of_nibble[crc & 0x0F]) ^ (crc >> 4);
    crc = FLASH_U32(&crc_of_nibble[crc & 0x0F]) ^ (crc >> 4);
    return crc;
}

/* Writing. */

void wire_begin(struct wire_frame *frame, uint8_t *bytes, uint8_t capacity,
                uint8_t type, uint32_t sequence) {
    frame->bytes = bytes;
    frame->capacity = capacity;
    frame->size = 0;
    wire_u8(frame, type);
    wire_u8(frame, 0); /* flags: reserved */
    wire_u32(frame, sequence);
}

void wire_u8(struct wire_frame *frame, uint8_t value) {
    if (frame->size < frame->capacity) {
        frame->bytes[frame->size++] = value;
    }
}

void wire_u32(struct wire_frame *frame, uint32_t value) {
    for (uint8_t i = 0; i < 4; i++) {
        wire_u8(frame, (uint8_t)value);
        value >>= 8;
    }
}

void wire_bytes(struct wire_frame *frame, const uint8_t *bytes, uint8_t size) {
    for (uint8_t i = 0; i < size; i++) {
        wire_u8(frame, bytes[i]);
    }
}

void wire_text(struct wire_frame *frame, const char *text) {
    uint8_t length = 0;
    while (length < 32 && text[length] != '\0') {
        length++;
    }
    wire_u8(frame, length);
    for (uint8_t i = 0; i < length; i++) {
        wire_u8(frame, (uint8_t)text[i]);
    }
}

uint8_t wire_end(struct wire_frame *frame) {
    uint32_t crc = WIRE_CRC_BEGIN;
    for (uint8_t i = 0; i < frame->size; i++) {
        crc = wire_crc(crc, frame->bytes[i]);
    }
    wire_u32(frame, ~crc);
    return frame->size;
}

void wire_send(const uint8_t *raw, uint8_t size, wire_put put, void *context) {
    uint8_t start = 0;
    for (;;) {
        uint8_t end = start;
        while (end < size && raw[end] != 0) {
            end++;
        }
        /* At most 254 raw bytes, so a run is at most 254 long and its code 255. */
        put(context, (uint8_t)(end - start + 1));
        for (uint8_t i = start; i < end; i++) {
            put(context, raw[i]);
        }
        if (end == size) {
            break;
        }
        start = (uint8_t)(end + 1);
    }
    put(context, 0);
}

/* Reading. */

static void keep(struct wire_reader *reader, uint8_t byte) {
    if (reader->size == WIRE_RAW_MAX) {
        reader->too_long = true;
        return;
    }
    if (reader->size < WIRE_KEPT) {
        reader->kept[reader->size] = byte;
    }
    reader->size++;
    reader->crc = wire_crc(reader->crc, byte);
}

static enum wire_event judge(struct wire_reader *reader) {
    if (!reader->begun) {
        return WIRE_NOTHING;
    }
    reader->begun = false;
    bool sound = !reader->too_long && reader->left == 0 &&
                 reader->size >= WIRE_RAW_MIN && reader->crc == WIRE_CRC_SOUND;
    return sound ? WIRE_FRAME : WIRE_DAMAGE;
}

enum wire_event wire_read(struct wire_reader *reader, uint8_t byte) {
    if (byte == 0) {
        return judge(reader);
    }
    if (!reader->begun) {
        reader->begun = true;
        reader->too_long = false;
        reader->zero_after = false;
        reader->size = 0;
        reader->left = 0;
        reader->crc = WIRE_CRC_BEGIN;
    }
    if (reader->left > 0) {
        reader->left--;
        keep(reader, byte);
        return WIRE_NOTHING;
    }
    if (reader->zero_after) {
        keep(reader, 0);
    }
    reader->left = (uint8_t)(byte - 1);
    reader->zero_after = byte != 0xFF;
    return WIRE_NOTHING;
}
