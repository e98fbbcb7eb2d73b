import { readFileSync } from 'node:fs'
import { join } from 'node:path'

/** A row of a site table as written: heading to cell. */
export type Cells = Readonly<Record<string, string>>

export interface Step {
  readonly kind: string
  readonly numbers: Readonly<Record<string, number>>
}

/** The chain of one calibration version, in force from an instant until the next. */
export interface Chain {
  readonly fromEpochMs: number
  readonly steps: readonly Step[]
}

export interface Place {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly levelMetres: number
  /** Depth below the collar, vertical. */
  readonly depthMetres: number
}

export interface Wired {
  readonly logger: string
  readonly channel: string
  readonly sensor: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/** What the generator needs of the site folder. It trusts the tables: the site reader checks them. */
export interface Records {
  readonly sensors: ReadonlyMap<string, Cells>
  readonly kindOfPoint: ReadonlyMap<string, string>
  readonly placeOfPoint: ReadonlyMap<string, Place>
  readonly chains: ReadonlyMap<string, readonly Chain[]>
  readonly wiring: readonly Wired[]
  readonly loggers: ReadonlyMap<string, Cells>
  readonly gateways: readonly Place[]
}

export function readRecords(folder: string): Records {
  const table = (file: string) => parseRows(readFileSync(join(folder, file), 'utf8'))
  const byId = (rows: readonly Cells[]) => new Map(rows.map((row) => [row.id as string, row]))
  const locations = byId(table('locations.csv'))
  const instruments = byId(table('instruments.csv'))
  const kindOfPoint = new Map<string, string>()
  const placeOfPoint = new Map<string, Place>()
  for (const point of table('points.csv')) {
    const instrument = instruments.get(point.instrument as string) as Cells
    kindOfPoint.set(point.id as string, instrument.kind as string)
    const location = locations.get(instrument.location as string) as Cells
    placeOfPoint.set(point.id as string, placeAt(location, Number(point.depthMetres)))
  }
  return {
    sensors: byId(table('sensors.csv')),
    kindOfPoint,
    placeOfPoint,
    chains: readChains(table('calibrations.csv'), table('calibration-steps.csv')),
    wiring: table('wiring.csv').map((row) => ({
      logger: row.logger as string,
      channel: row.channel as string,
      sensor: row.sensor as string,
      fromEpochMs: Date.parse(row.fromAt as string),
      untilEpochMs: row.untilAt ? Date.parse(row.untilAt) : Number.POSITIVE_INFINITY,
    })),
    loggers: byId(table('loggers.csv')),
    gateways: table('gateways.csv').map((row) => {
      const mast = placeAt(locations.get(row.location as string) as Cells, 0)
      return { ...mast, levelMetres: mast.levelMetres + Number(row.antennaHeightMetres) }
    }),
  }
}

function placeAt(location: Cells, alongMetres: number): Place {
  const radians = (degrees: string | undefined) => (Number(degrees) * Math.PI) / 180
  const down = alongMetres * Math.sin(radians(location.dipDegrees))
  const out = alongMetres * Math.cos(radians(location.dipDegrees))
  return {
    eastingMetres: Number(location.eastingMetres) + out * Math.sin(radians(location.azimuthDegrees)),
    northingMetres: Number(location.northingMetres) + out * Math.cos(radians(location.azimuthDegrees)),
    levelMetres: Number(location.collarLevelMetres) - down,
    depthMetres: down,
  }
}

function readChains(
  calibrations: readonly Cells[],
  steps: readonly Cells[],
): ReadonlyMap<string, readonly Chain[]> {
  const stepsOf = new Map<string, Step[]>()
  for (const row of steps) {
    const numbers = Object.fromEntries(
      (row.parameters ?? '')
        .split(';')
        .map((pair) => pair.split('=').map((part) => part.trim()))
        .filter(([, value]) => value !== undefined && !Number.isNaN(Number(value)))
        .map(([name, value]) => [name, Number(value)]),
    )
    const list = stepsOf.get(row.calibration as string) ?? []
    list[Number(row.step) - 1] = { kind: row.kind as string, numbers }
    stepsOf.set(row.calibration as string, list)
  }
  const chains = new Map<string, Chain[]>()
  for (const row of calibrations) {
    const list = chains.get(row.sensor as string) ?? []
    list.push({
      fromEpochMs: Date.parse(row.validFrom as string),
      steps: stepsOf.get(row.id as string) ?? [],
    })
    chains.set(
      row.sensor as string,
      list.sort((a, b) => a.fromEpochMs - b.fromEpochMs),
    )
  }
  return chains
}

/** Rows of a comma-separated table with quoted cells, by heading. */
export function parseRows(text: string): readonly Cells[] {
  const [headings, ...rows] = text
    .split('\n')
    .filter((line) => line !== '')
    .map(splitLine)
  return rows.map((cells) => Object.fromEntries((headings ?? []).map((name, i) => [name, cells[i] ?? ''])))
}

function splitLine(line: string): string[] {
  const cells: string[] = []
  for (const match of line.matchAll(/("(?:[^"]|"")*"|[^,]*)(,|$)/g)) {
    const cell = match[1] as string
    cells.push(cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell)
    if (match[2] === '') break
  }
  return cells
}
