import { createSignal, Show } from 'solid-js'
import type { IssuedReport } from '#domain/report/report.ts'
import { firstDifference } from '../../report/first-difference.ts'
import { pageSoftware } from '../../state/page-software.ts'
import { createMaking, type Making } from './create-making.ts'
import { type Reports, sha256Of } from './create-reports.ts'
import { MakingProgress } from './MakingProgress.tsx'

/** Makes an issued report again from its manifest and frozen data, and says whether it is the same bytes. */
export function RebuildReport(props: { report: IssuedReport; reports: Reports; making?: Making }) {
  const making = props.making ?? createMaking()
  const [outcome, setOutcome] = createSignal<readonly string[]>([])
  const other = () => {
    const here = pageSoftware() ?? props.reports.list()?.software ?? ''
    return here !== '' && here !== props.report.manifest.software ? here : null
  }
  const rebuild = async () => {
    setOutcome([])
    const sentences = await making.during(async (signal) => {
      const made = await making.make(props.report.manifest, signal)
      making.tell('Comparing …', 0.98)
      return compare(
        props.report,
        props.reports,
        { 'report.html': made.html, 'report.pdf': made.pdf },
        signal,
      )
    })
    if (sentences) setOutcome(sentences)
  }
  return (
    <div class="report-rebuild">
      <Show when={other()}>
        {(here) => (
          <p>
            It was composed by version {props.report.manifest.software}; this is {here()}, which may compute
            and draw otherwise. What differs then need not be a fault.
          </p>
        )}
      </Show>
      <button type="button" disabled={making.at() !== null} onClick={() => void rebuild()}>
        Make again and compare
      </button>
      <MakingProgress making={making} />
      <Show when={outcome().length > 0}>
        <div role="status">
          {outcome().map((sentence) => (
            <p>{sentence}</p>
          ))}
        </div>
      </Show>
    </div>
  )
}

type Bytes = Readonly<Record<IssuedReport['files'][number]['name'], Uint8Array>>

async function compare(
  report: IssuedReport,
  reports: Reports,
  rebuilt: Bytes,
  signal: AbortSignal,
): Promise<readonly string[]> {
  const sentences: string[] = []
  for (const file of report.files) {
    const sha256 = await sha256Of(rebuilt[file.name])
    if (sha256 === file.sha256) sentences.push(`${file.name}: same SHA-256 as issued, ${sha256}.`)
    else if (file.name === 'report.html') {
      const answer = await fetch(reports.fileUrl(report, file.name), { signal })
      const issued = answer.ok ? await answer.text() : null
      const found =
        issued === null ? null : firstDifference(issued, new TextDecoder().decode(rebuilt[file.name]))
      sentences.push(
        found
          ? `${file.name} differs. First in “${found.block}”${found.heading === null ? '' : `, under “${found.heading}”`}: issued “${found.issued}”, made now “${found.rebuilt}”.`
          : `${file.name} differs: SHA-256 ${sha256} in place of ${file.sha256}. ${issued === null ? 'What was issued could not be fetched to compare.' : 'What is kept is not what was issued.'}`,
      )
    } else sentences.push(`${file.name} differs: SHA-256 ${sha256} in place of ${file.sha256}.`)
  }
  return sentences
}
