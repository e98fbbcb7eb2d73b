/** What was corrected since the data were frozen; said, and nothing of what is shown changes by it. */
export function SinceFrozen() {
  return null
}
