/* verdict.h - one reading against one target (layer: judge). */
#ifndef HL_VERDICT_H
#define HL_VERDICT_H

#include "hammerline/audit.h"
#include "sheet.h"

typedef struct hl_ruling {
    hl_verdict verdict;
    hl_why why;
} hl_ruling;

/* A number; exactly on a limit passes. */
hl_ruling hl__verdict_value(const hl_target *target, hl_amount value);
/* The same when the value is known to within `guard` only: passes inside `sure` shrunk by it, fails
 * outside `possible` widened by it, and is doubtful between, `why` telling the limit in question.  The
 * two targets are one, unless it is in doubt itself whether the value may float. */
hl_ruling hl__verdict_guarded(const hl_target *sure, const hl_target *possible, hl_amount value,
                              hl_amount guard);
/* Any row of a sheet that can stand for a reading: number, word, go/no-go, skip. */
hl_ruling hl__verdict_event(const hl_step *step, const hl_target *target, const hl_event *event);

#endif
