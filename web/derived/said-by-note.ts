const mostNames = 6

/** What is said of values, each note once with whom it is said of: "Outside the sensor's range: PZ-05A, PZ-06B." */
export function saidByNote(
  values: readonly { readonly name: string; readonly notes: readonly string[] }[],
): readonly string[] {
  const namesOf = new Map<string, string[]>()
  for (const { name, notes } of values)
    for (const note of notes) namesOf.set(note, [...(namesOf.get(note) ?? []), name])
  return [...namesOf].map(([note, names]) => {
    const more = names.length - mostNames
    const listed = names.slice(0, mostNames).join(', ')
    return `${note.charAt(0).toUpperCase()}${note.slice(1)}: ${listed}${more > 0 ? ` and ${more} more` : ''}.`
  })
}
