import { createMemo, onCleanup } from 'solid-js'
import type { MadeReport } from '../../report/make-report.ts'
import { blobOf } from './create-reports.ts'

/** The page of a report as it will be given out. It can run nothing and lead nowhere from here. */
export function ReportPreview(props: { made: MadeReport; name: string }) {
  const text = createMemo(() => new TextDecoder().decode(props.made.html))
  const url = createMemo(() => {
    const made = URL.createObjectURL(blobOf(props.made.pdf, 'application/pdf'))
    onCleanup(() => URL.revokeObjectURL(made))
    return made
  })
  return (
    <div class="report-preview">
      <p>
        {props.made.pages} pages, {Math.ceil(props.made.pdf.length / 1024)} KiB as PDF.{' '}
        {/* Its bytes are those that would be issued: beside an issued one only the name tells that it is none. */}
        <a href={url()} download={`${props.name}-not-issued.pdf`}>
          Look at the PDF before it is issued
        </a>
      </p>
      <iframe title={`Preview of ${props.name}`} sandbox="" srcdoc={text()} />
    </div>
  )
}
