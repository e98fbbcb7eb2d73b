/**
 * Line on which each element of the top-level `features` list of a JSON text begins; the text must be
 * valid JSON. JSON.parse says nothing of places, and a person looks for a line.
 */
export function featureLines(content: string): readonly number[] {
  const lines: number[] = []
  const open: string[] = []
  let line = 1
  let key = ''
  let listKey = ''
  for (let at = 0; at < content.length; at++) {
    const character = content[at] as string
    if (character === '\n') line += 1
    else if (character === '"') {
      const from = at + 1
      at += 1
      while (content[at] !== '"') at += content[at] === '\\' ? 2 : 1
      if (open.length === 1) key = content.slice(from, at)
    } else if (character === '{' || character === '[') {
      if (open.length === 1) listKey = key
      if (open.length === 2 && open[1] === '[' && listKey === 'features') lines.push(line)
      open.push(character)
    } else if (character === '}' || character === ']') open.pop()
  }
  return lines
}
