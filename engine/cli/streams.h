/* streams.h - the three standard streams (layer: cli). */
#ifndef HL_STREAMS_H
#define HL_STREAMS_H

#include <stdbool.h>

/* Takes the place of a standard stream that the caller closed, so that no sheet is opened in its
 * place and written into by what is said.  Reading from it, or writing to it, still fails.  False when
 * that can't be done. */
bool hold_streams(void);

#endif
