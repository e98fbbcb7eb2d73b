import { expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from '../../contract/small-site.ts'

const at = Date.UTC(2027, 8, 1)
const saying = (text: string): SiteModel => {
  const base = smallSite()
  return {
    ...base,
    meetings: [
      { id: 1, title: text, heldAt: at, cutOffAt: at, previous: null, frozenSet: null, author: text, at },
    ],
    boards: [
      {
        meeting: 1,
        version: 1,
        board: 1,
        kind: 'plan',
        title: text,
        address: `site=${base.facts.id}`,
        seconds: 20,
        author: text,
        at,
      },
    ],
    minutes: [
      {
        id: 1,
        meeting: 1,
        kind: 'action',
        text,
        places: null,
        owner: text,
        dueOn: '2027-09-14',
        author: text,
        at,
      },
    ],
    actionEntries: [{ minute: 1, entry: 1, standing: 'done', note: text, author: text, at }],
  }
}

test.each([
  '=1+1',
  '+441234',
  '-',
  '@all',
  "'=x",
  'two\nlines',
  'two\r\nlines',
  'a\rb',
  '"quoted"',
  'a; b, c',
  'null',
  '1e5',
  'a\u2028b',
  'a\u0000b',
  'a\u0085b',
])('what a meeting says goes to the folder and back as it was: %j', (text) => {
  const back = readSite(writeSite(saying(text)))
  if (!back.ok) throw new Error(JSON.stringify(back.issues.slice(0, 3)))
  for (const table of ['meetings', 'boards', 'minutes', 'actionEntries'] as const)
    expect(back.value[table]).toEqual(saying(text)[table])
  const cells = [...writeSite(saying(text)).values()].join('\n')
  expect(cells).not.toMatch(/(^|,)"?[=+@-](1|4|a|"|,)/m)
})
