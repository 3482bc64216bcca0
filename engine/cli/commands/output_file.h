/* output_file.h - a result as a file (layer: cli/commands). */
#ifndef HL_OUTPUT_FILE_H
#define HL_OUTPUT_FILE_H

#include "options.h"

/* Is there nothing that the output would destroy?  False after a complaint: the file of --output, or the
 * one that standard output goes to, is one of the inputs, under whatever name. */
bool check_output(const request *asked);
/* Is this the file of --output, or the one that standard output goes to? */
bool is_output(const request *asked, const char *path);
/* To a file, whole or not at all, and never over an input.  Returns an exit code. */
int save_result(const request *asked, const char *path, const char *text, size_t size);
/* To the file of --output, whole or not at all, or to standard output.  Returns an exit code. */
int give_out(const request *asked, const char *text, size_t size);

#endif
