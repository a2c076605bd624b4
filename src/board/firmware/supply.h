/* The chip's supply: switched, sensed, and refused when something is wrong with it. */
#ifndef SUPPLY_H
#define SUPPLY_H

#include <stdint.h>

void supply_begin(void);

/* On and off return a status of protocol.h. */
uint8_t supply_on(void);
uint8_t supply_off(void);
/* Off for so many seconds; supply_turn() switches it on again. */
uint8_t supply_rest(uint16_t seconds);
/* Before an access: BOARD_DONE, BOARD_NO_POWER, BOARD_BUSY, or BOARD_SUPPLY_SHORT when it has
   fallen; then everything is off. */
uint8_t supply_check(void);
/* Ends a rest, and switches off what nobody asks for any more. Called often. */
void supply_turn(void);
/* Somebody asked for something. */
void supply_wanted(void);

uint8_t supply_state(void);
/* How switching on ended the last time. */
uint8_t supply_status(void);
uint16_t supply_rail_millivolts(void);
uint16_t supply_chip_millivolts(void);
uint16_t supply_rest_left(void);

#endif
