/* pressed.h - the shipped books, put together when the program is built (layer: host).
 *
 * Opening a book costs thousands of times what judging a reading does: sixty rule files are read, run
 * and laid over each other.  Those that come with the program are known beforehand, so engine/press
 * opens them once at build time and writes them down as constants.  The files on the disk still rule: a
 * pressed book is given out only when every one of its files stands there with the very bytes that it
 * was pressed from.  One letter changed, and Lua runs. */
#ifndef HL_PRESSED_H
#define HL_PRESSED_H

#include "host.h"

typedef struct hl_pressed_file {
    const char *name; /* below its rule folder, as the book shows it */
    const char *text;
    size_t size;
} hl_pressed_file;

typedef struct hl_pressed {
    const hl_book *book; /* its arena is empty */
    const hl_pressed_file *files;
    int n_files;
} hl_pressed;

/* Written by engine/press; empty in a build that could not run it. */
extern const hl_pressed hl__pressed[];
extern const int hl__n_pressed;

/* The pressed book that opening `name` would give, or NULL: then open it the long way. */
const hl_book *hl__pressed_find(const char *name, const hl_shelf *shelf);

#endif
