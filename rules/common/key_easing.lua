-- Key easing: friction and side play of the key on its two pins, told apart: each has a part and a tool of its own.
return step {
  id = "key_easing", title = "Key easing", stage = "prepare", kind = "judged", scope = "every",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Lift the key front about 50 mm and let go: it falls by itself. Push it sideways at the front, then at the " ..
    "balance pin: it springs back.",
  why = "A stiff key is slow and reads heavy. A slack one rattles and lets the check wander.",
  method = "keys free of the action",
  caution = "A balance hole that is forced over its pin splits the key: ease a little, try often.",
  faults = {
    { "tight", means = "slow to fall: the front pin's bushing pinches", fix = { { "key_bushing", "ease" } } },
    { "tight_button", means = "slow to fall: the balance pin's bushing pinches",
      fix = { { "balance_bushing", "ease" } } },
    { "tight_hole", means = "stays up: tight at the balance hole", fix = { { "balance_hole", "ease" } },
      todo = "Ease the hole from side to side only, never front to back." },
    { "slack", means = "stays where it was pushed, or rattles, at the front", fix = { { "key_bushing", "renew" } } },
    { "slack_button", means = "rocks or rattles at the balance pin", fix = { { "balance_bushing", "renew" } } },
    { "slack_hole", means = "slides front to back on its balance pin", fix = { { "balance_hole", "tighten" } },
      todo = "Size the hole with water or thin glue; the key must still settle by its own weight." },
  },
  masks = { "checking" },
  source = "digest-1999-key-holes; page-key-care",
}
