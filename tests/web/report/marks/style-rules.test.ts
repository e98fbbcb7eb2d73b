// @vitest-environment node
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { verdicts, worksKinds } from '#domain/site/vocabulary.ts'
import type { FigureScope } from '../../../../web/report/document.ts'
import { openStyleSheet } from '../../../../web/report/marks/select-style.ts'
import { allMarks } from '../../../../web/views/marks/mark.ts'
import { drawnByHand, history, profile } from '../made-report.ts'

const room = { widthPixels: 640, heightPixels: 320, fontPixels: 11 }
const scopes: readonly FigureScope[] = ['section', 'time-history', 'depth-profile', 'figure', 'plan-figure']

/** Classes in the source of a view: words between quotes where a mark is made; `*` stands for what is not written there. */
function classesIn(source: string): string[] {
  const quoted = "(`[^`\\n]*`|'[^'\\n]*')"
  return [
    ...source.matchAll(
      new RegExp(`\\b(?:group|line|path|dot|box|label|area|sample|across)\\(\\s*${quoted}`, 'g'),
    ),
    ...source.matchAll(new RegExp(`\\b(?:className|class|style)\\s*[:=]\\s*[^'\`\\n,]*${quoted}`, 'g')),
    ...source.matchAll(
      new RegExp(`\\b(?:className|class)\\s*[:=]\\s*[^'\`\\n,]*'[^'\\n]*'\\s*:\\s*${quoted}`, 'g'),
    ),
  ].flatMap(([, text]) => writings((text ?? '').slice(1, -1)).flatMap((one) => one.split(/\s+/)))
}

/** Every way in which a template may be written out, as far as its choices are written in it. */
function writings(text: string): string[] {
  const place = /\$\{([^}]*)\}/.exec(text)
  if (!place) return [text]
  const choices = [...(place[1] ?? '').matchAll(/'([^']*)'/g)].map(([, word]) => word ?? '')
  const [before, after] = [text.slice(0, place.index), text.slice(place.index + place[0].length)]
  return (choices.length === 0 ? ['*'] : choices).flatMap((choice) => writings(`${before}${choice}${after}`))
}

describe('no view draws a class that paper does not know', () => {
  test.each(scopes)('%s', (scope) => {
    const sheet = openStyleSheet(scope)
    const files = [`web/views/${scope}`, 'web/views/marks'].flatMap((folder) => sourcesOf(folder))
    const found = new Set(files.flatMap((file) => classesIn(readFileSync(file, 'utf8'))))
    expect(found.size).toBeGreaterThan(15)
    const isKnown = (name: string) => {
      if (name === '' || name === '*' || !/^[a-z][a-z0-9-]*\*?$/.test(name)) return true
      if (sheet.knows(name.replace('*', ''))) return true
      if (!name.endsWith('*')) return false
      return [...Array(7).keys(), 'late', 'within', 'level', 'unknown', ...worksKinds].some((end) =>
        sheet.knows(name.replace('*', String(end))),
      )
    }
    expect([...found].filter((name) => !isKnown(name))).toEqual([])
  })
  test('nor by words of the vocabulary', () => {
    for (const verdict of verdicts) expect(openStyleSheet('time-history').knows(verdict)).toBe(true)
    for (const kind of worksKinds) expect(openStyleSheet('plan-figure').knows(`works-${kind}`)).toBe(true)
  })
  test.each([history(), profile, drawnByHand])('nor in a drawing: $caption', ({ scope, scene }) => {
    const sheet = openStyleSheet(scope)
    const names = allMarks(scene(room)).flatMap(({ attributes }) =>
      String(attributes.class ?? '').split(/\s+/),
    )
    expect(names.filter((name) => name !== '' && !sheet.knows(name))).toEqual([])
  })
})

/** Sources that make marks; those that put elements into the page make none. */
function sourcesOf(folder: string): string[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.ts') && !/^create-|^view-frame|^draw-marks/.test(file))
    .map((file) => join(folder, file))
}
