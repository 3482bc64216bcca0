-- Bedding of an upright's keyframe: no glides, no shift. The frame is screwed or shimmed to the bed.
return step {
  id = "bedding", title = "Keyframe bedding", stage = "prepare", kind = "judged", scope = "once",
  plain = "Screws, and the fit in the piano",
  ask = "Tap the front, balance and back rails. Press on keys along the whole length. Nothing knocks or gives.",
  why = "A frame that gives takes dip away and knocks.",
  faults = {
    { "knock", means = "a tap knocks", todo = "Shim under that place, then tighten the frame screws." },
    { "gives", means = "frame sinks under the keys", todo = "Shim the balance rail until it bears." },
  },
  masks = { "key_level", "key_dip" },
  unsourced = true,
}
