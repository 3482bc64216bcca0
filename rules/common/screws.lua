-- Screws: the seat of everything else. Judged once for the instrument.
return step {
  id = "screws", title = "Screws", stage = "prepare", kind = "judged", scope = "once",
  plain = "Screws, and the fit in the piano",
  ask = "Try every flange, rail, bracket and keyframe screw. Leave the adjusting screws alone.",
  why = "A loose screw moves parts, makes noise, and spoils every later reading.",
  caution = "Strings are under load. Never force a plate screw: a cracked plate is the end of the piano.",
  faults = {
    { "loose", means = "screws turn before they bite", fix = { { "flange_screws", "tighten" } },
      todo = "Travel and space again the hammers whose flanges moved." },
    { "stripped", means = "a screw turns and never holds",
      todo = "Plug the hole or fit a bushing. No longer screw into soft wood." },
  },
  source = "page-grand-detail: part 1",
}
