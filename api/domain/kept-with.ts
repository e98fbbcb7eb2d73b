/**
 * A pure function of something that is never changed in place and of some numbers, each answer kept for as long as that
 * thing is: whoever asks again with the same one gets the very same answer, which nobody may change either.
 */
export function keptWith<Thing extends object, Numbers extends readonly number[], Answer>(
  make: (thing: Thing, ...numbers: Numbers) => Answer,
): (thing: Thing, ...numbers: Numbers) => Answer {
  const answers = new WeakMap<Thing, Map<string, { readonly answer: Answer }>>()
  return (thing, ...numbers) => {
    const own = answers.get(thing) ?? new Map<string, { readonly answer: Answer }>()
    answers.set(thing, own)
    const key = numbers.join()
    const kept = own.get(key) ?? { answer: make(thing, ...numbers) }
    own.set(key, kept)
    return kept.answer
  }
}
