/* verdict.h - one reading against one target (layer: table). */
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
/* A reading of a step (by index) that is no number and no word: go/no-go, or skipped.  `within` passes only
 * by a gauge whose limits the sheet states and that lie inside the target. */
hl_state hl__verdict_other(const hl_sheet *sheet, int index, const hl_target *target, const hl_event *event);

#endif
