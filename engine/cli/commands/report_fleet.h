/* report_fleet.h - "hammerline report" of many pianos (layer: cli/commands). */
#ifndef HL_REPORT_FLEET_H
#define HL_REPORT_FLEET_H

#include "options.h"
#include "rule_paths.h"

/* Several sheets, a folder, a file of many, or a folder to write into. */
bool is_fleet_report(const request *asked);
/* Returns the exit code. */
int run_report_fleet(const request *asked, const bookshelf *shelf, const hl_report *wanted);

#endif
