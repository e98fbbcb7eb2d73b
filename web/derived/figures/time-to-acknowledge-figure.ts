import type { CountsOf } from '#domain/alerts/alert-statistics.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'

const hourMs = 3_600_000

/** How soon people took alerts up, by the month in which these were raised. Those that nobody took up are in no time. */
export function timeToAcknowledgeFigure(months: readonly CountsOf[], timeZone: string): FigureProps {
  const placed = months.flatMap((month) => {
    const { medianToAcknowledgeMs: median, ninetiethToAcknowledgeMs: ninetieth } = month
    if (median === null || ninetieth === null) return []
    // The middle of the month, so that it stands over its name in any zone.
    return [
      {
        ...month,
        at: Date.parse(`${month.of}-15T12:00:00Z`),
        median: median / hourMs,
        ninetieth: ninetieth / hourMs,
      },
    ]
  })
  const waiting = months.filter(({ unacknowledged }) => unacknowledged > 0)
  return {
    title: 'Time from raising an alert until somebody acknowledged it, by month.',
    x: { name: 'Month', unit: '', scale: 'instant', reversed: false, decimals: 0, including: [] },
    y: { name: 'Until acknowledged', unit: 'h', scale: 'even', reversed: false, decimals: 2, including: [0] },
    bands: [],
    curves: [
      {
        name: 'half of them within',
        style: 'measured',
        places: placed.map(({ at, median }) => [at, median]),
      },
      {
        name: 'nine of ten within',
        style: 'limit',
        places: placed.map(({ at, ninetieth }) => [at, ninetieth]),
      },
    ],
    points: placed.map(({ of, at, median, raised, unacknowledged }) => ({
      choice: null,
      name: of,
      place: [at, median],
      halfBar: null,
      leftOut: false,
      says: `${of}: half within ${median.toFixed(2)} h, of ${raised - unacknowledged} acknowledged.`,
    })),
    rules: [],
    selected: null,
    timeZone,
    table: {
      caption: 'Time until acknowledged, by month of raising',
      headings: ['Month', 'Raised', 'Not acknowledged', 'Half within, h', 'Nine of ten within, h'],
      rows: months.map(({ of, raised, unacknowledged, medianToAcknowledgeMs, ninetiethToAcknowledgeMs }) => [
        of,
        String(raised),
        String(unacknowledged),
        hours(medianToAcknowledgeMs),
        hours(ninetiethToAcknowledgeMs),
      ]),
    },
    remarks: waiting.map(
      ({ of, unacknowledged }) =>
        `${of}: ${unacknowledged} not acknowledged; they wait longer than any time drawn, and are in none.`,
    ),
    message: placed.length === 0 ? 'No alert has been acknowledged yet.' : null,
  }
}

const hours = (lengthMs: number | null): string => (lengthMs === null ? '–' : (lengthMs / hourMs).toFixed(2))
