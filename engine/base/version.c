/* version.c - which version of the engine this is (layer: base). */
#include "hammerline/base.h"

const char *hl_version(void)
{
    return HL_VERSION;
}

int hl_version_number(void)
{
    return HL_VERSION_NUMBER;
}
