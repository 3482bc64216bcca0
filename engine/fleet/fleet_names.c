/* fleet_names.c - which sheets of a file have been told, and as what (layer: fleet).
 *
 * Of each name its hash is kept, 64 bits less two; the two lowest say what was told.  Of 100,000 names two
 * would have one hash once in a few hundred million fleets; they would then be called apart, not ready. */
#include "fleet.h"

#include <stdlib.h>
#include <string.h>

#define TOLD UINT64_C(3)

hl_told hl__fleet_told(uint64_t kept)
{
    return (hl_told)(kept & TOLD);
}

void hl__fleet_tell(uint64_t *kept, hl_told told)
{
    *kept = (*kept & ~TOLD) | (uint64_t)told;
}

uint64_t hl__fleet_hash(const char *name)
{
    uint64_t hash = UINT64_C(0xcbf29ce484222325); /* FNV-1a, 64 bit, then mixed for the low bits */
    for (const char *c = name; *c; c++)
        hash = (hash ^ (unsigned char)*c) * UINT64_C(0x100000001b3);
    hash ^= hash >> 32;
    return hash <= TOLD ? TOLD + 1 : hash & ~TOLD;
}

static uint64_t *find_name(const hl_fleet_names *names, uint64_t hash)
{
    /* A part of the room as large as the hash is of all hashes: so the room may be of any size. */
    size_t at = (size_t)(((hash >> 32) * names->room) >> 32);
    while (names->at[at] != 0 && (names->at[at] & ~TOLD) != hash)
        at = at + 1 < names->room ? at + 1 : 0;
    return &names->at[at];
}

/* By a quarter: the names of a large fleet are most of what it keeps. */
static bool widen(hl_fleet_names *names)
{
    const hl_fleet_names old = *names;
    hl_fleet_names wide = {.n = old.n, .room = old.room + old.room / 4 + 8};
    wide.at = calloc(wide.room, sizeof *wide.at);
    if (!wide.at)
        return false;
    for (size_t i = 0; i < old.room; i++)
        if (old.at[i] != 0)
            *find_name(&wide, old.at[i] & ~TOLD) = old.at[i];
    free(old.at);
    *names = wide;
    return true;
}

uint64_t *hl__fleet_name(hl_fleet *fleet, int id, uint64_t hash)
{
    if (fleet->seen_of != id)
        hl__fleet_free_names(fleet);
    fleet->seen_of = id;
    hl_fleet_names *names = &fleet->seen[(hash >> 2) % HL_FLEET_NAMES];
    if (8 * names->n >= 7 * names->room && !widen(names))
        return NULL;
    uint64_t *kept = find_name(names, hash);
    if (*kept == 0) {
        *kept = hash | HL_TOLD_NEW;
        names->n++;
    }
    return kept;
}

void hl__fleet_free_names(hl_fleet *fleet)
{
    for (int i = 0; i < HL_FLEET_NAMES; i++) {
        free(fleet->seen[i].at);
        fleet->seen[i] = (hl_fleet_names){0};
    }
}
