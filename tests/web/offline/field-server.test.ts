import { afterEach, expect, it, vi } from 'vitest'
import { fieldServer } from '../../../web/offline/field-server.ts'

afterEach(() => {
  vi.unstubAllGlobals()
})

const send = (status: number) => {
  const problem = { type: '/problems/x', title: 'x', status, detail: `Refused with ${status}.` }
  vi.stubGlobal('fetch', async () => new Response(JSON.stringify(problem), { status }))
  const attachment = {
    site: 'small-quay',
    sha256: 'a'.repeat(64),
    mediaType: 'image/jpeg',
    bytes: new Blob(['x']),
  }
  return fieldServer.sendAttachment(attachment as never)
}

// A session that ended or a role that changed says nothing against the photo.
it.each([401, 403, 404, 429, 503])('an attachment that is refused with %i waits', async (status) => {
  await expect(send(status)).rejects.toThrow(`Refused with ${status}.`)
})

it.each([400, 413, 422])(
  'an attachment that is refused with %i will not be taken, and says why',
  async (status) => {
    expect(await send(status)).toBe(`Refused with ${status}.`)
  },
)
