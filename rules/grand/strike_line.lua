-- Strike line: where along the strings the hammers strike.
return step {
  id = "strike_line", title = "Strike line", stage = "prepare", kind = "judged", scope = "once",
  plain = "How the hammers travel and meet their strings",
  ask = "Fit the action. In the top octave move it in and out by a hair and listen for the best tone. " ..
    "Check the other section ends.",
  why = "Strike point sets tone. In the top octave a millimetre is much.",
  caution = "Two people slide the action. No key down. " ..
    "Keep the hammers clear of the stretcher and your fingers clear of the blocks.",
  faults = {
    { "inward", means = "strikes too far from the player",
      todo = "Move the action out at the key block, or the hammer on its shank." },
    { "outward", means = "strikes too near the player",
      todo = "Move the action in at the key block, or the hammer on its shank." },
  },
  unsourced = true,
}
