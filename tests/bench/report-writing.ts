import { writeHtml } from '../../web/report/html/write-html.ts'
import { writePdf } from '../../web/report/pdf/write-pdf.ts'
import { timeHistoryScene } from '../../web/views/time-history/scene.ts'
import { reportFonts } from '../support/report-fonts.ts'
import { history, madeReport, profile, table } from '../web/report/made-report.ts'
import { hourly, madeHistory } from '../web/views/time-history/made-history.ts'
import type { Measurement } from './measurement.ts'

const goal = 'a 40-page report under 30 s, its data at hand'

/** A report of 30 drawings, 20 of them of six series with three months of hourly readings each, and ten long tables. */
export function measureReportWriting(): Measurement[] {
  const fonts = reportFonts()
  const hours = 90 * 24
  const [one] = madeHistory().series
  const props = madeHistory({
    untilEpochMs: hours * 3_600_000,
    traces: Array.from({ length: 6 }, (_, series) =>
      hourly(
        series + 1,
        Array.from({ length: hours }, (__, hour) => series * 5 + Math.sin(hour / 20) + hour / 400),
      ),
    ),
    series: one
      ? Array.from({ length: 6 }, (_, place) => ({ ...one, series: place + 1, name: `PZ-0${place + 1}A` }))
      : [],
  })
  const long = history({ tableId: null, scene: (room) => timeHistoryScene(props, room).marks })
  const report = madeReport({
    blocks: [
      { block: 'heading', level: 1, text: 'Readings' },
      ...Array.from({ length: 20 }, () => long),
      ...Array.from({ length: 10 }, () => profile),
      ...Array.from({ length: 10 }, () => table(100)),
    ],
  })
  const timed = <T>(work: () => T): readonly [T, number] => {
    const begun = performance.now()
    const made = work()
    return [made, (performance.now() - begun) / 1000]
  }
  const [pdf, pdfSeconds] = timed(() => writePdf(report, fonts))
  const [html, htmlSeconds] = timed(() => writeHtml(report))
  const line = (name: string, ours: number, unit: string): Measurement => ({
    name: `report: ${name}`,
    ours,
    unit,
    peer: null,
    goal,
  })
  return [
    line(`PDF of ${pdf.pages} pages, ${Math.round(pdf.bytes.length / 1000)} kB`, pdfSeconds, 's'),
    line('pages of PDF', pdf.pages / pdfSeconds, 'a second'),
    line(`page for a browser, ${Math.round(html.length / 1000)} kB`, htmlSeconds, 's'),
  ]
}
