-- Strike line: where along the strings the hammers strike. Once they travel, stand under their strings and let off.
return step {
  id = "strike_line", title = "Strike line", stage = "set", kind = "judged", scope = "once",
  plain = "How the hammers travel and meet their strings",
  ask = "Action in. In the top octave move it in and out by a hair and listen for the best tone. " ..
    "Check the other section ends.",
  why = "Strike point sets tone. In the top octave a millimetre is much.",
  caution = "Two people slide the action. No key down. " ..
    "Keep the hammers clear of the stretcher and your fingers clear of the blocks.",
  faults = {
    { "inward", means = "strikes too far from the player", fix = { { "key_block", "out" } },
      todo = "In one section only: the hammers must be hung again." },
    { "outward", means = "strikes too near the player", fix = { { "key_block", "in" } },
      todo = "In one section only: the hammers must be hung again." },
  },
  unsourced = true,
}
