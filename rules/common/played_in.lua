-- Played in: felt, cloth and leather settle under hard playing. Then a second reading, in a pass of its own.
return step {
  id = "played_in", title = "Played in and read again", stage = "finish", kind = "judged", scope = "once",
  need = "optional",
  plain = "Playing each note softly and firmly",
  ask = "Play every note firmly for a few minutes, or leave the piano in use for a day. " ..
    "Begin a new pass and read level, blow and aftertouch on samples again.",
  why = "New cloth gives way under the first hours of playing; what was set to a tenth is a tenth out.",
  caution = "Loud blows: mind your hearing.",
  faults = {
    { "level", means = "keys have settled out of line", todo = "Level again, then read dip and aftertouch." },
    { "line", means = "hammers have settled out of line", todo = "Read blow and let-off again, and even the line." },
    { "touch", means = "dip or aftertouch has changed", todo = "Read dip and aftertouch again on every key." },
  },
  unsourced = true, source = "common-practice",
}
