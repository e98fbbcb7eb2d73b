import { afterEach, expect, test, vi } from 'vitest'
import type { Slice } from '#contract/slice-list.ts'
import { fetchSlice, forgetOtherSlices } from '../../../web/slices/fetch-slice.ts'

const slice = (name: string, bytes = 3): Slice => ({
  resolution: 'hour',
  month: '2027-03',
  url: `/slices/made/${name}`,
  bytes,
  rows: 1,
  sha256: name,
  fromEpochMs: 0,
  untilEpochMs: 1,
})

/** The browser's store of responses, held in a map. */
function keepIn(map: Map<string, Uint8Array>) {
  const full = (url: string) => new URL(url, location.href).href
  const store = {
    match: async (url: string) => {
      const bytes = map.get(full(url))
      return bytes && new Response(bytes.slice())
    },
    put: async (url: string, response: Response) =>
      void map.set(full(url), new Uint8Array(await response.arrayBuffer())),
    delete: async (request: string | { url: string }) =>
      map.delete(full(typeof request === 'string' ? request : request.url)),
    keys: async () => [...map.keys()].map((url) => ({ url })),
  }
  vi.stubGlobal('caches', { open: async () => store })
}
const answerWith = (bytes: readonly number[] | null, status = 200) => {
  const fetched = vi.fn(async () => {
    if (!bytes) throw new TypeError('no route')
    return new Response(Uint8Array.from(bytes), { status })
  })
  vi.stubGlobal('fetch', fetched)
  return fetched
}
afterEach(() => vi.unstubAllGlobals())

test('fetched once, then kept: the second time the network is not asked', async () => {
  keepIn(new Map())
  const fetched = answerWith([1, 2, 3])
  expect([...(await fetchSlice(slice('a')))]).toEqual([1, 2, 3])
  expect([...(await fetchSlice(slice('a')))]).toEqual([1, 2, 3])
  expect(fetched).toHaveBeenCalledTimes(1)
})

test('a kept copy of the wrong length is fetched again', async () => {
  keepIn(new Map([[new URL('/slices/made/a', location.href).href, Uint8Array.of(9)]]))
  answerWith([1, 2, 3])
  expect([...(await fetchSlice(slice('a')))]).toEqual([1, 2, 3])
})

test.each([
  ['no answer', null, 200, 'the server did not answer'],
  ['an error', [1, 2, 3], 404, 'the server answered 404'],
  ['half of it', [1], 200, '1 bytes came instead of 3'],
] as const)('%s says which month is missing and why', async (_case, bytes, status, why) => {
  answerWith(bytes, status)
  await expect(fetchSlice(slice('a'))).rejects.toMatchObject({
    code: 'slice-unavailable',
    message: `Readings of 2027-03 (hour) could not be fetched: ${why}`,
  })
})

test('without a store the bytes serve all the same', async () => {
  answerWith([1, 2, 3])
  expect(await fetchSlice(slice('a'))).toHaveLength(3)
})

test('superseded slices of the site are dropped, those of other sites stay', async () => {
  const kept = new Map(
    ['/slices/made/old', '/slices/made/new', '/slices/other/one'].map((url) => [
      new URL(url, location.href).href,
      Uint8Array.of(1),
    ]),
  )
  keepIn(kept)
  await forgetOtherSlices(['/slices/made/new'])
  expect([...kept.keys()].map((url) => new URL(url).pathname)).toEqual([
    '/slices/made/new',
    '/slices/other/one',
  ])
})
