/**
 * What a byte range (RFC 9110) of a whole kept answer is; the whole where none or several were asked for. 416 where
 * the range begins beyond the end.
 */
export async function cutRange(kept: Response, range: string | null): Promise<Response> {
  const asked = /^bytes=(\d*)-(\d*)$/.exec(range ?? '')
  if (!asked || (asked[1] === '' && asked[2] === '')) return kept
  const bytes = await kept.arrayBuffer()
  const size = bytes.byteLength
  const [from, to] = [asked[1] ?? '', asked[2] ?? '']
  const start = from === '' ? Math.max(0, size - Number(to)) : Number(from)
  const end = from === '' || to === '' ? size - 1 : Math.min(size - 1, Number(to))
  if (start >= size || end < start)
    return new Response(null, { status: 416, headers: { 'content-range': `bytes */${size}` } })
  return new Response(bytes.slice(start, end + 1), {
    status: 206,
    headers: {
      'content-type': kept.headers.get('content-type') ?? 'application/octet-stream',
      'accept-ranges': 'bytes',
      'content-length': String(end - start + 1),
      'content-range': `bytes ${start}-${end}/${size}`,
    },
  })
}
