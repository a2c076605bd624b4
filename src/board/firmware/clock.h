/* The chip's clock. All return a status of protocol.h. */
#ifndef CLOCK_H
#define CLOCK_H

#include <stdint.h>

enum { CLOCK_BYTES = 14, CLOCK_SETTING = 12 };

/* Bytes 00h to 0Dh, all of them of one second. */
uint8_t clock_read(uint8_t bytes[CLOCK_BYTES]);
/* 0Ah and 0Bh alone. fault: address, written and found, for BOARD_NOT_TAKEN. */
uint8_t clock_run(const uint8_t registers[2], uint8_t fault[3]);
/* Bytes 00h to 0Bh. The chip's second begins when this ends, its next one half a second later. */
uint8_t clock_set(const uint8_t bytes[CLOCK_SETTING], uint8_t fault[3]);
/* Waits for the end of an update. */
uint8_t clock_edge(void);

#endif
