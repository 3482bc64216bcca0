/* verdict.h - one reading against one target (layer: judge). */
#ifndef HL_VERDICT_H
#define HL_VERDICT_H

#include "sheet.h"

typedef struct hl_ruling {
    hl_verdict verdict;
    hl_why why;
} hl_ruling;

/* A number; exactly on a limit passes. */
hl_ruling hl__verdict_value(const hl_target *target, hl_amount value);
/* Any row of a sheet that can stand for a reading: number, word, go/no-go, skip. */
hl_ruling hl__verdict_event(const hl_step *step, const hl_target *target, const hl_event *event);

#endif
