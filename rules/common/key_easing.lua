-- Key easing: friction and side play of the key on its two pins.
return step {
  id = "key_easing", title = "Key easing", stage = "prepare", kind = "judged", scope = "every",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Lift the key front about 50 mm and let go: it falls by itself. Push it sideways: it springs back.",
  why = "A stiff key is slow and reads heavy. A slack one rattles and lets the check wander.",
  method = "keys free of the action",
  faults = {
    { "tight", means = "does not fall back by itself", fix = { { "key_bushing", "ease" } } },
    { "tight_hole", means = "tight at the balance hole", fix = { { "key_bushing", "ease" } },
      todo = "Ease the hole from side to side only, never front to back." },
    { "slack", means = "stays where it was pushed, or rattles", fix = { { "key_bushing", "renew" } } },
  },
  masks = { "checking" },
  source = "digest-1999-key-holes; page-key-care",
}
