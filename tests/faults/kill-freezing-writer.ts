import { writeSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { by, cutOff, killFreezingSite, openKillFreezing } from './kill-freezing-site.ts'

/** Freezes by one cut-off after another until it is killed; says of each set when it is acknowledged. */
const [orders] = await new Promise<[string]>((resolve) =>
  createInterface({ input: process.stdin }).once('line', (line) => resolve([line])),
)
const [folder, first] = JSON.parse(orders) as [string, number]
const { freezing } = await openKillFreezing(folder)
// Written straight to the pipe: what was said before the kill is not lost with this process.
const say = (text: string) => writeSync(1, `${text}\n`)
say('writing')
for (let k = first; ; k++) {
  const frozen = await freezing.freeze(killFreezingSite, cutOff(k), by)
  if (!frozen.ok) throw new Error(frozen.issues.map(({ message }) => message).join(' '))
  say(`frozen ${k} ${frozen.value.set.id}`)
}
