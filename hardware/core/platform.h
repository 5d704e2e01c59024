/* The only place of the core that knows what it is compiled for.
 *
 * On an AVR, constants live in RAM unless told otherwise, and reading them from
 * flash takes an instruction of its own. Everywhere else a constant is a constant.
 */
#ifndef PLATFORM_H
#define PLATFORM_H

#ifdef __AVR__
#include <avr/pgmspace.h>
#define IN_FLASH PROGMEM
#define FLASH_U32(place) pgm_read_dword(place)
#else
#define IN_FLASH
#define FLASH_U32(place) (*(place))
#endif

#endif
