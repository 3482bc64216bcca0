/* gauges.h - is what the readings were taken with fine enough for their targets (layer: measure).
 *
 * Two common rules, stated with their warnings: a gauge reads to a tenth of the tolerance, and is good
 * to a quarter of it (calibration practice).  Repeats are pooled as NIST's e-Handbook 2.4 does at its
 * first level: the squares about each place's own mean, over the sum of (readings - 1). */
#ifndef HL_GAUGES_H
#define HL_GAUGES_H

#include "hammerline/audit.h"
#include "table.h"

/* What the readings were taken with, as hl_audit_gauges() and hl_audit_repeats() say it. */
typedef struct hl_gauge_report {
    hl_gauge *gauges;
    size_t n_gauges;
    hl_repeat *repeats;
    size_t n_repeats;
} hl_gauge_report;
/* From a judged table, into its arena.  False = no memory. */
bool hl__gauges_find(hl_gauge_report *out, const hl_table *table);
/* The reading before it, written again for the sake of a remark: a row can't be changed.  Nothing was
 * measured, so it tells nothing of the gauge, and is no second reading. */
bool hl__is_remark(const hl_sheet *sheet, const hl_event *event);

/* What is summed over the places where something was read more than once. */
typedef struct hl_pool {
    double squares; /* about each place's mean */
    int places, freedom;
} hl_pool;
/* One place with n > 1 readings, given by the sums of their differences from any value near them. */
void hl__pool_add(hl_pool *pool, int n, double sum, double squares);
/* Pooled standard deviation; 0 when there are no degrees of freedom. */
double hl__pool_deviation(const hl_pool *pool);

#endif
