/* commands.h - one function a form of a command; each returns an exit code (layer: cli/commands). */
#ifndef HL_COMMANDS_H
#define HL_COMMANDS_H

#include "options.h"

int run_audit(const request *asked);
int run_walk(const request *asked);
int run_why(const request *asked);
int run_verify(const request *asked);
int run_plan(const request *asked);
int run_sheet_new(const request *asked);
int run_sheet_form(const request *asked);
int run_sheet_convert(const request *asked);
int run_sheet_history(const request *asked);
int run_report(const request *asked);
int run_rules_list(const request *asked);
int run_rules_show(const request *asked);
int run_rules_check(const request *asked);
int run_rules_diff(const request *asked);

#endif
