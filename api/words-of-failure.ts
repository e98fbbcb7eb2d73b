/** What something thrown says; own code throws errors only, a library may throw anything. */
export const wordsOfFailure = (failure: unknown): string =>
  failure instanceof Error ? failure.message : String(failure)
