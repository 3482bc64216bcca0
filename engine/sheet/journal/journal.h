/* journal.h - appending readings to a tidy sheet so that none is ever lost (layer: sheet/journal).
 *
 * One entry, of one row or several, is one write() under a lock, then fdatasync(), and only then HL_OK.  The
 * lock is a file of its own, SHEET.lock, which is never renamed or removed; it is held only while a call
 * works, so that several sessions may keep one sheet.  An entry that was cut short (a kill, a power cut) is
 * moved whole to SHEET.torn and never read as a reading.
 *
 * A journal belongs to one thread at a time and must not be used on both sides of a fork().  The
 * program should ignore SIGXFSZ and SIGPIPE; a library does not touch signals. */
#ifndef HL_JOURNAL_H
#define HL_JOURNAL_H

#include "hammerline/sheet.h"

/* Its functions are public: see hammerline.h. */

#endif
