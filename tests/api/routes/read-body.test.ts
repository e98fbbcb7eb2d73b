import { readdir, readFile } from 'node:fs/promises'
import { Hono } from 'hono'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { readBody } from '../../../api/routes/read-body.ts'

const app = new Hono().post('/', async (context) =>
  context.json(await readBody(context, z.object({ words: z.array(z.record(z.string(), z.string())) }))),
)
const codeOf = async (words: unknown) => {
  const answer = await app.request('/', { method: 'POST', body: JSON.stringify({ words }) })
  const read = (await answer.json()) as { ok: boolean; issues?: readonly { code: string }[] }
  return read.ok ? 'taken' : read.issues?.[0]?.code
}

test('half of a character anywhere in a body is refused, a whole one taken', async () => {
  expect(await codeOf([{ said: 'whole \ud83d\ude00' }])).toBe('taken')
  expect(await codeOf([{ said: 'half \ud83d' }])).toBe('character-broken')
  expect(await codeOf([{ said: '\ude00\ud83d' }])).toBe('character-broken')
  expect(await codeOf([{}, { 'name \ude00': '' }])).toBe('character-broken')
  expect(await codeOf('none')).toBe('body-unreadable')
})

test('no route reads a body of JSON by itself, so that none can forget it', async () => {
  const folder = new URL('../../../api/routes/', import.meta.url)
  const names = (await readdir(folder)).filter((name) => name !== 'read-body.ts')
  expect(names.length).toBeGreaterThan(50)
  const byThemselves = []
  for (const name of names)
    if (/\.json\(\)|\.parseBody\(|\.req\.text\(/.test(await readFile(new URL(name, folder), 'utf8')))
      byThemselves.push(name)
  expect(byThemselves).toEqual([])
})
