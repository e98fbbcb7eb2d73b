import { createSignal } from 'solid-js'
import type { ReportIssue, ReportList } from '#contract/reports.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { IssuedReport, ReportManifest } from '#domain/report/report.ts'
import type { MadeReport } from '../../report/make-report.ts'
import { askServer, sendForm, sendServer, sentenceOf } from '../../state/ask-server.ts'
import { siteDocument } from '../../state/site-document.ts'

/** A report that was made and is not issued: its files, and the hashes that the server will hold them against. */
export interface PreparedReport {
  readonly manifest: ReportManifest
  readonly made: MadeReport
  readonly sha256: ReportIssue['sha256']
}

/** Issued reports of the open site and what is due, and the ways to freeze and to issue. */
export function createReports() {
  const [list, setList] = createSignal<ReportList | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const site = () => siteDocument()?.facts.id ?? ''
  // Never by way of a frozen address: reports are issued from the site itself.
  const path = (part: string) => `/api/sites/${encodeURIComponent(site())}${part}`
  const refresh = async () => {
    const wanted = site()
    if (wanted === '') return
    try {
      const answer = await askServer<ReportList>(path('/reports'))
      if (wanted !== site()) return
      setList(answer)
      setTrouble(null)
    } catch (cause) {
      if (wanted === site()) setTrouble(sentenceOf(cause))
    }
  }
  return {
    list,
    trouble,
    refresh,
    fileUrl: (report: IssuedReport, name: string) => path(`/reports/${report.id}/${name}`),
    freeze: (cutOffEpochMs: number | null, author: string, signal?: AbortSignal) =>
      sendServer<FrozenSet>(path('/frozen'), { cutOffEpochMs, author }, signal),
    async issue({ manifest, made, sha256 }: PreparedReport): Promise<IssuedReport> {
      const form = new FormData()
      form.set('issue', JSON.stringify({ manifest, sha256 } satisfies ReportIssue))
      form.set('report.html', blobOf(made.html, 'text/html'), 'report.html')
      form.set('report.pdf', blobOf(made.pdf, 'application/pdf'), 'report.pdf')
      const issued = await sendForm<IssuedReport>(path('/reports'), form)
      await refresh()
      return issued
    },
  }
}
export type Reports = ReturnType<typeof createReports>

export const blobOf = (bytes: Uint8Array, type: string): Blob => new Blob([bytes as BlobPart], { type })

/** SHA-256 of bytes in hexadecimal digits. Browsers give it to pages that came by https or from this machine only. */
export async function sha256Of(bytes: Uint8Array): Promise<string> {
  if (!globalThis.crypto?.subtle)
    throw new Error(
      'This browser works out no hash on a page that came over plain http. Open the page by https, or on the machine of the server itself.',
    )
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as BufferSource))
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
