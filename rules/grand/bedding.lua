-- Bedding: the keyframe lies on the keybed everywhere. The frame alone is in; the stack's weight comes later.
return step {
  id = "bedding", title = "Keyframe bedding", stage = "keys", kind = "judged", scope = "once",
  plain = "Screws, and the fit in the piano",
  ask = "Frame in the piano without the stack, key blocks and hold-downs fitted, glides backed off. Tap back rail, " ..
    "then front rail. Lower each glide until its tap just stops. Try again when the action is in.",
  why = "A frame that does not lie true knocks, wastes power, and falsifies level and dip.",
  method = "in the piano",
  caution = "Sprung hold-downs and shift springs fly: mind your eyes.",
  faults = {
    { "knock_front", means = "a tap on the front rail knocks",
      todo = "Shim or ease the front rail, then read level and dip again." },
    { "knock_back", means = "a tap on the back rail knocks",
      todo = "Shim or ease the back rail, then read level and dip again." },
    { "knock_balance", means = "a tap by a glide knocks", fix = { { "glide", "lower" } } },
    { "glide_high", means = "the frame rises when a glide is turned", fix = { { "glide", "raise" } } },
    { "shift_stuck", means = "the frame does not shift and return",
      todo = "Free the hold-downs and key blocks. Clean the slides. Try the pedal again." },
  },
  masks = { "key_level", "key_dip" },
  source = "articles-grand-steps: parts 9, 14, 17; page-service; common-practice: hold-downs and key blocks",
}
