/** Every colour that is drawn, as `#rrggbb`. Text colours are used on paper, sheet and raised. */
export interface Palette {
  readonly paper: string
  readonly sheet: string
  readonly raised: string
  readonly ink: string
  readonly inkSoft: string
  readonly rule: string
  readonly accent: string
  readonly onAccent: string
  readonly focus: string
  readonly warningPaper: string
  readonly warningInk: string
  readonly ground: string
  readonly made: string
  readonly water: string
  readonly waterLine: string
  readonly building: string
  readonly buildingLine: string
  readonly excavation: string
  readonly wall: string
  readonly tunnel: string
  readonly service: string
  readonly planLabel: string
  readonly halo: string
  readonly withinLevels: string
  readonly firstLevel: string
  readonly lastLevel: string
  readonly settled: string
  readonly heaved: string
  readonly met: string
  readonly notMet: string
}

const paper: Palette = {
  paper: '#f7f5ef',
  sheet: '#fdfcf8',
  raised: '#ece8dd',
  ink: '#1d2730',
  inkSoft: '#52606b',
  rule: '#c9c3b4',
  accent: '#1f5468',
  onAccent: '#ffffff',
  focus: '#b3470b',
  warningPaper: '#f6e3b4',
  warningInk: '#4d3500',
  ground: '#f0ecdf',
  made: '#e7e1d0',
  water: '#cfdfe2',
  waterLine: '#7f9fa8',
  building: '#ddd2c3',
  buildingLine: '#a08f7b',
  excavation: '#d8cdb4',
  wall: '#3b444c',
  tunnel: '#7c6f93',
  service: '#8a7a52',
  planLabel: '#3f4a53',
  halo: '#fdfcf8',
  withinLevels: '#42688c',
  firstLevel: '#c47a08',
  lastLevel: '#86125a',
  settled: '#9a4a1c',
  heaved: '#2f6f7d',
  met: '#2d6a5f',
  notMet: '#a3245f',
}

const dim: Palette = {
  paper: '#12181d',
  sheet: '#192128',
  raised: '#26313a',
  ink: '#eef1ee',
  inkSoft: '#a9b5bd',
  rule: '#3a4751',
  accent: '#8cc7d8',
  onAccent: '#0d1a20',
  focus: '#ffb066',
  warningPaper: '#4a3a10',
  warningInk: '#ffe7ae',
  ground: '#1c2328',
  made: '#232b30',
  water: '#15303b',
  waterLine: '#4b7684',
  building: '#343433',
  buildingLine: '#6f6a62',
  excavation: '#3a3629',
  wall: '#c3ccd2',
  tunnel: '#a697c4',
  service: '#a5956a',
  planLabel: '#c7d0d5',
  halo: '#12181d',
  withinLevels: '#7fa8d0',
  firstLevel: '#eba937',
  lastLevel: '#f07cc0',
  settled: '#e39a63',
  heaved: '#6fc0cf',
  met: '#79c4b3',
  notMet: '#f283b8',
}

const sun: Palette = {
  paper: '#ffffff',
  sheet: '#ffffff',
  raised: '#efefef',
  ink: '#000000',
  inkSoft: '#24292e',
  rule: '#5c6166',
  accent: '#0b3242',
  onAccent: '#ffffff',
  focus: '#8f3200',
  warningPaper: '#ffe9a8',
  warningInk: '#2e1f00',
  ground: '#ffffff',
  made: '#f4f4f0',
  water: '#dcebee',
  waterLine: '#3f6570',
  building: '#e6e0d6',
  buildingLine: '#5f5140',
  excavation: '#e6dfca',
  wall: '#14191d',
  tunnel: '#4d3f66',
  service: '#57481f',
  planLabel: '#0d1317',
  halo: '#ffffff',
  withinLevels: '#214a72',
  firstLevel: '#9a5c00',
  lastLevel: '#6d0545',
  settled: '#6e2c06',
  heaved: '#0c4652',
  met: '#0a4238',
  notMet: '#78073f',
}

/** Boards of a meeting are read from five metres: every text has a contrast of 7 to 1 and more (WCAG 2.2, 1.4.6). */
const lightRoom: Palette = {
  ...sun,
  halo: '#f8f7f3',
  paper: '#f8f7f3',
  sheet: '#ffffff',
  raised: '#ecebe5',
  ink: '#14191e',
  rule: '#8d9196',
  accent: '#0f3f52',
  ground: '#f6f4ee',
  made: '#efece3',
  water: '#d6e5e9',
  building: '#e3dccf',
  excavation: '#ded5bf',
}

const darkRoom: Palette = {
  ...dim,
  paper: '#0d1215',
  sheet: '#13191e',
  raised: '#1d262d',
  ink: '#f4f6f3',
  inkSoft: '#c9d2d7',
  rule: '#5b6872',
  accent: '#a5d7e4',
  warningPaper: '#3a2c08',
  planLabel: '#e2e8ea',
  halo: '#0d1215',
  ground: '#171d21',
  made: '#1d2428',
  building: '#2b2c2c',
  excavation: '#2e2b22',
  settled: '#f0ae7d',
  heaved: '#86d0dd',
  tunnel: '#c2b6dc',
  service: '#c9ba90',
  met: '#8fd4c4',
  notMet: '#f6a2ca',
}

/** Our own colours: drawing paper for the day, a dim room, bright sun on a tablet, and both rooms of a meeting. */
export const palettes: Readonly<Record<'paper' | 'room' | 'sun' | 'lightRoom' | 'darkRoom', Palette>> = {
  paper,
  room: dim,
  sun,
  lightRoom,
  darkRoom,
}

/** Names of a palette as CSS variables: `inkSoft` is `--ink-soft`. */
export function cssVariables(palette: Palette): readonly (readonly [string, string])[] {
  return Object.entries(palette).map(
    ([name, colour]) =>
      [`--${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`, colour] as const,
  )
}

/** Red, green, blue and opacity, 0 to 255, as deck.gl wants them. */
export function toRgba(colour: string, opacity = 255): [number, number, number, number] {
  const packed = Number.parseInt(colour.slice(1), 16)
  return [packed >> 16, (packed >> 8) & 255, packed & 255, opacity]
}
