/* Bytes of the chip, which must have its supply. */
#ifndef CHIP_H
#define CHIP_H

#include <stdint.h>

/* One bus cycle of either kind, not interrupted. */
uint8_t chip_peek(uint8_t at);
void chip_poke(uint8_t at, uint8_t value);

/* A byte, and the bits of it that nobody drives. What a read clears (0Ch) is in the value. */
uint8_t chip_read(uint8_t at, uint8_t* undriven);

#endif
