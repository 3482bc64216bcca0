return tests "tiny" {
  { "blwo", "C4", reads = 46, want = "pass", source = "a slip" },
}
