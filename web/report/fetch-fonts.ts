import regularUrl from 'dejavu-fonts-ttf/ttf/DejaVuSans.ttf?url'
import boldUrl from 'dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf?url'
import obliqueUrl from 'dejavu-fonts-ttf/ttf/DejaVuSans-Oblique.ttf?url'
import type { ReportFonts } from './pdf/typeface.ts'

/** The fonts that a report is set in, from the server that gave this page. */
export async function fetchFonts(signal?: AbortSignal): Promise<ReportFonts> {
  const bytesOf = async (url: string): Promise<Uint8Array> => {
    const answer = await fetch(new URL(url, location.href), signal ? { signal } : {})
    if (!answer.ok)
      throw new Error(`A font of the report could not be fetched: the server answered ${answer.status}.`)
    return new Uint8Array(await answer.arrayBuffer())
  }
  const [regular, bold, oblique] = await Promise.all([regularUrl, boldUrl, obliqueUrl].map(bytesOf))
  if (!regular || !bold || !oblique) throw new Error('A font of the report is missing.')
  return { regular, bold, oblique }
}
