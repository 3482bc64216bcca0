-- Bedding of an upright's keyframe: no glides, no shift. The frame is screwed or shimmed to the bed.
return step {
  id = "bedding", title = "Keyframe bedding", stage = "keys", kind = "judged", scope = "once",
  plain = "Screws, and the fit in the piano",
  ask = "Action out. Tap the front, balance and back rails. Press on keys along the whole length. Nothing knocks or " ..
    "gives.",
  why = "A frame that gives takes dip away and knocks.",
  faults = {
    { "knock", means = "a tap knocks", fix = { { "frame_shim", "shim" } },
      todo = "Under that place. Then tighten the frame screws." },
    { "gives", means = "frame sinks under the keys", fix = { { "frame_shim", "shim" } },
      todo = "Under the balance rail, until it bears." },
  },
  masks = { "key_level", "key_dip" },
  unsourced = true,
}
