/* Time since reset in milliseconds, and waiting. */
#ifndef TICKS_H
#define TICKS_H

#include <stdint.h>

void ticks_begin(void);
uint32_t ticks_now(void);
/* Sleeps until the next interrupt: a tick, or a character. */
void ticks_sleep(void);
/* At least so long. */
void ticks_wait(uint16_t milliseconds);

#endif
