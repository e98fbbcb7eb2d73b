/** Runs work that is cut into steps to its end at once; what the steps yield on the way is the share done. */
export function finishSteps<T>(steps: Generator<number, T>): T {
  let step = steps.next()
  while (!step.done) step = steps.next()
  return step.value
}
