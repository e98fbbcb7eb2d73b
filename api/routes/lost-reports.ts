import type { ReportList } from '#contract/reports.ts'
import type { IssuedReport } from '#domain/report/report.ts'
import type { ReportFiles } from './report-files.ts'

/** Of issued reports those that cannot be made again or given out, and why; sets and files are looked at, not read. */
export async function lostReports(
  site: string,
  reports: readonly IssuedReport[],
  held: {
    readonly kept: Pick<ReportFiles, 'isLost'>
    readonly damageOf: (site: string, set: string) => Promise<string | null>
  },
): Promise<NonNullable<ReportList['lost']>> {
  // One issue is counted from the set of the issue before: each is asked about once.
  const damages = new Map<string, Promise<string | null>>()
  const damageOf = (set: string) => {
    const asked = damages.get(set) ?? held.damageOf(site, set)
    damages.set(set, asked)
    return asked
  }
  const told = reports.map(async ({ id, manifest, files }) => {
    const sentences: string[] = []
    for (const set of [manifest.frozenSet, manifest.previousFrozenSet]) {
      const damage = set === null ? null : await damageOf(set)
      if (damage !== null) sentences.push(`It cannot be made again: ${damage}`)
    }
    for (const file of files)
      if (await held.kept.isLost(file))
        sentences.push(
          `Its file ${file.name} is missing on the server or is not what was issued, and is not given out. Put the file with SHA-256 ${file.sha256} back from a backup.`,
        )
    return { report: id, sentences }
  })
  return (await Promise.all(told)).filter(({ sentences }) => sentences.length > 0)
}
