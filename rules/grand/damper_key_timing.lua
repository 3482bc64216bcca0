-- Damper timing by key: when the key lifts the damper.
return step {
  id = "damper_key_timing", title = "Damper timing by key", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Press the key slowly. The damper starts when the hammer is half way to the string.",
  why = "Early dampers weigh on the finger. Late ones chop the tone.",
  faults = {
    { "early", means = "starts before half way", fix = { { "key_end_felt", "thin" }, { "damper_wire", "raise" } } },
    { "late", means = "starts after half way", fix = { { "key_end_felt", "thicken" }, { "damper_wire", "lower" } } },
  },
  source = "page-grand-guide: part XXIX; journal-damper-steps; list-2005-damper-timing; maker-damper-class",
}
