/* The serial port: characters in through a buffer, characters out one after the other. */
#ifndef SERIAL_H
#define SERIAL_H

#include <stdint.h>

void serial_begin(void);
/* The next character, or -1. */
int16_t serial_take(void);
void serial_put(char character);

#endif
