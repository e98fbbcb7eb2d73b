import type { Figure, ReportDocument, Table } from '../../../web/report/document.ts'
import { heading, list, paragraph } from '../../../web/report/document.ts'
import { depthProfileScene } from '../../../web/views/depth-profile/scene.ts'
import { group, label, line, type Mark, path } from '../../../web/views/marks/mark.ts'
import { timeHistoryScene } from '../../../web/views/time-history/scene.ts'
import { hourly, madeHistory } from '../views/time-history/made-history.ts'

const hourMs = 3_600_000

export const history = (changes: Partial<Figure> = {}): Figure => ({
  block: 'figure',
  caption: 'Pore pressure at PZ-09 through the day.',
  alternative: 'Pore pressure rises from 0 to 23 kPa.',
  scope: 'time-history',
  aspect: 2,
  tableId: 'values',
  scene: (room) =>
    timeHistoryScene(
      madeHistory({
        traces: [
          hourly(
            1,
            Array.from({ length: 24 }, (_, hour) => (hour === 7 ? null : hour)),
          ),
        ],
        stages: [
          {
            id: 'dig',
            name: 'Dig to −2.0 m',
            fromEpochMs: 2 * hourMs,
            untilEpochMs: null,
          },
        ] as never,
      }),
      room,
    ).marks,
  ...changes,
})

export const profile: Figure = {
  block: 'figure',
  caption: 'Pore pressure with depth at PZ-09.',
  alternative: 'Pore pressure rises with depth.',
  scope: 'depth-profile',
  aspect: 0.9,
  tableId: null,
  scene: (room) =>
    depthProfileScene(
      {
        instrument: 'PZ-09',
        kind: 'piezometer',
        valueName: 'Pore pressure',
        unit: 'kPa',
        decimals: 1,
        datum: 'site datum',
        timeZone: 'UTC',
        collarLevelMetres: 4.6,
        points: [
          { point: 'PZ-09A', depthMetres: 5.6, levelMetres: -1 },
          { point: 'PZ-09B', depthMetres: 12, levelMetres: -7.4 },
        ],
        curves: [
          {
            heading: 'At the cut-off',
            atEpochMs: 100 * hourMs,
            readings: [
              { point: 'PZ-09A', value: 20, atEpochMs: 90 * hourMs, late: true, standing: 'late' },
              { point: 'PZ-09B', value: 83, atEpochMs: 90 * hourMs, late: false, standing: 'level-1' },
            ],
          },
        ],
        strata: [{ name: 'Soft clay', topLevelMetres: 1.6, baseLevelMetres: -5.4 }],
        water: null,
        expected: null,
        still: null,
        joined: true,
        positiveMeans: 'pressure above zero gauge pressure',
        levels: [{ level: 1, name: 'Level 1', value: 60 }],
        levelCount: 3,
        selectedPoint: null,
        remarks: [],
        waiting: false,
      },
      room,
    ),
}

/** A pattern, a clip, a turned text and a dash: what views may draw and these scenes do not. */
export const drawnByHand: Figure = {
  block: 'figure',
  caption: 'Every kind of mark.',
  alternative: 'A hatched box, a clipped line and a word that runs upwards.',
  scope: 'figure',
  aspect: 2,
  tableId: null,
  scene: ({ widthPixels, heightPixels }): readonly Mark[] => [
    {
      tag: 'defs',
      attributes: {},
      children: [
        {
          tag: 'pattern',
          attributes: { id: 'strokes', width: 20, height: 20 },
          children: [line('rule strong', 0, 20, 20, 0)],
        },
        {
          tag: 'clipPath',
          attributes: { id: 'half' },
          children: [
            { tag: 'rect', attributes: { x: 0, y: 0, width: widthPixels / 2, height: heightPixels } },
          ],
        },
      ],
    },
    { tag: 'path', attributes: { class: '', d: 'M10 10H110V60H10Z', fill: 'url(#strokes)' } },
    group('curves', [line('figure-rule', 0, 30, widthPixels, 30)], { 'clip-path': 'url(#half)' }),
    label('value-text', 0, 0, 'upwards', 'middle', { transform: 'translate(150 100) rotate(-90)' }),
    path('figure-curve', 'M10 80a8 8 0 1 0 16 0q4 -8 8 0t8 0'),
  ],
}

export const table = (rows: number, changes: Partial<Table> = {}): Table => ({
  block: 'table',
  caption: 'Settlement at the cut-off.',
  columns: [
    { head: 'Point' },
    { head: 'Settlement', unit: 'mm', align: 'decimal' },
    { head: 'Remark', align: 'text' },
  ],
  rows: [
    { over: 'North wall' },
    ...Array.from({ length: rows }, (_, row) => [
      `SP-${String(row + 1).padStart(3, '0')}`,
      row % 5 === 3 ? '–' : `${row % 2 ? '−' : ''}${(row * 1.375).toFixed(row % 3)}`,
      row % 9 === 4 ? 'Damaged on 3 March, put up again 12 m from the wall and read since the day after' : '',
    ]),
  ],
  notes: ['Against the zero of 12 January 2026.'],
  ...changes,
})

export const madeReport = (changes: Partial<ReportDocument> = {}): ReportDocument => ({
  title: 'Weekly report 7',
  language: 'en-GB',
  paper: 'A4',
  datedEpochMs: Date.UTC(2026, 2, 9, 9),
  facts: {
    site: 'Box & tunnel <north>',
    number: 'Weekly report 7',
    period: '2 to 8 March 2026',
    cutOff: 'Data received until 8 March 2026 18:00 UTC',
    provisionalShare: '12 % of the readings shown are provisional',
    statementBy: 'A. Hartmann, 9 March 2026',
    watermark: 'INVENTED SITE',
    software: '0.1.0',
    more: [{ name: 'Compared with', value: 'Weekly report 6' }],
  },
  statement: [
    heading(1, 'Statement of the engineer'),
    paragraph(['The wall behaves ', { strong: 'as designed' }, '; 12 mm at most.']),
  ],
  blocks: [
    heading(1, 'Changes since the last issue'),
    paragraph('Two values were revised.'),
    table(60, { id: 'values' }),
    heading(1, 'Readings'),
    heading(2, 'Pore pressure'),
    list(['No current data from PZ-09A.', 'Level 1 at PZ-09B.'], true),
    history(),
    { block: 'figure-pair', figures: [profile, drawnByHand] },
    heading(3, 'What it rests on'),
    {
      block: 'caution',
      heading: 'Not to be concluded',
      words: ['Nothing was measured between the points.'],
    },
  ],
  ...changes,
})
