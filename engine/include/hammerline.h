/* hammerline.h - the public face of the engine: includes its topics and nothing else.
 *
 * The command line includes this header and no other of the engine's.  It needs libc only.  A program that
 * needs one topic may include that one alone. */
#ifndef HAMMERLINE_H
#define HAMMERLINE_H

#include "hammerline/audit.h"
#include "hammerline/base.h"
#include "hammerline/book.h"
#include "hammerline/fleet.h"
#include "hammerline/plan.h"
#include "hammerline/print.h"
#include "hammerline/sheet.h"

#endif
