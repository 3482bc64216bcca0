return tests "careless" {
  { "careless_line", "C4", reads = 1.5, want = "pass", source = "arithmetic" },
  { "careless_line", "C4", reads = 2.5, want = "pass", source = "a slip" },
  { "careless_gap", "C4", reads = 5, want = "fail", why = "low", source = "a slip" },
}
