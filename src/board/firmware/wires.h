/* Wires that touch each other, ground or the supply. */
#ifndef WIRES_H
#define WIRES_H

#include <stdint.h>

/* The chip has its supply and is not selected. BOARD_DONE, or BOARD_TOUCHING with the line and the
   mask of those that follow it. */
uint8_t wires_test(uint8_t found[3]);

#endif
