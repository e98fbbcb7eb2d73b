import { invertCalibration } from '../logging/invert-calibration.ts'
import type { Chain, Records } from '../logging/read-records.ts'
import { senseBy } from '../logging/sensed-value.ts'
import { dayMs, hourMs, programme } from '../models/programme.ts'
import type { Weather } from '../models/weather.ts'
import { openRandomStream } from '../random.ts'
import { azoresText, dayName, isoText, type SampleFile } from './file-text.ts'

const minuteMs = 60_000

/** The levelling crew's files, one a survey day, Wednesdays; a mark under a parked car is left empty. */
export function levellingFiles(records: Records, weather: Weather): readonly SampleFile[] {
  const marks = readBy(records, weather, 'LEVELLING')
  const random = openRandomStream('levelling crew')
  const files: SampleFile[] = []
  for (let day = programme.startsAt + 2 * dayMs; day < programme.endsAt; day += 7 * dayMs) {
    const closure = (0.2 + 0.9 * random.uniform()).toFixed(1)
    const lines = [
      `Levelling run ${files.length + 1},level SQ-LEVEL-1,benchmark VB-3 at 5.2140 m`,
      `closure ${closure} mm,allowed 1.8 mm,datum Velmouth`,
      'date,time,point,level',
    ]
    let readings = 0
    marks.forEach(({ channel, rawAt }, i) => {
      const epochMs = day + 8 * hourMs + 2 * i * minuteMs
      const raw = rawAt(epochMs)
      const hidden = random.uniform() < 0.012
      if (!hidden) readings++
      const stamp = isoText(epochMs)
      lines.push(`${stamp.slice(0, 10)},${stamp.slice(11, 16)},${channel},${hidden ? '' : raw.toFixed(4)}`)
    })
    files.push({
      path: `raw/rounds/levelling_${dayName(day)}.csv`,
      text: `${lines.join('\n')}\n`,
      encoding: 'utf8',
      receivedEpochMs: day + 13 * hourMs + Math.round(90 * random.uniform()) * minuteMs,
      from: 'levelling crew',
      readings,
    })
  }
  return files
}

/** The dip round's files, Thursdays, depth to water below the collar, local time. */
export function dipFiles(records: Records, weather: Weather): readonly SampleFile[] {
  const pipes = readBy(records, weather, 'DIPPING')
  const random = openRandomStream('dip round')
  const files: SampleFile[] = []
  for (let day = programme.startsAt + 3 * dayMs; day < programme.endsAt; day += 7 * dayMs) {
    const start = day + 9 * hourMs + Math.round(60 * random.uniform()) * minuteMs
    const lines = ['when,standpipe,depth to water']
    pipes.forEach(({ channel, rawAt }, i) => {
      const epochMs = start + 11 * i * minuteMs
      lines.push(`${azoresText(epochMs)},${channel},${rawAt(epochMs).toFixed(2)}`)
    })
    files.push({
      path: `raw/rounds/dips_${dayName(day)}.csv`,
      text: `${lines.join('\n')}\n`,
      encoding: 'utf8',
      receivedEpochMs: start + 3 * hourMs,
      from: 'dip round',
      readings: pipes.length,
    })
  }
  return files
}

/**
 * The files of the casing crew, one a survey, Tuesdays: a count a reading, faces A0 and B0 in the first pass from the toe
 * up, A180 and B180 in the second. All rows of a survey carry the instant at which it began.
 */
export function casingFiles(records: Records, weather: Weather): readonly SampleFile[] {
  const stations = readBy(records, weather, 'CASINGS')
  const random = openRandomStream('casing crew')
  const files: SampleFile[] = []
  for (let day = programme.startsAt + dayMs; day < programme.endsAt; day += 7 * dayMs) {
    const start = day + 9 * hourMs + Math.round(90 * random.uniform()) * minuteMs
    const stamp = `${isoText(start).slice(0, 10)} ${isoText(start).slice(11, 16)}`
    const lines = [`Casing IC-01,survey ${files.length + 1},probe over 0.5 m`, 'surveyed,station,count']
    for (const { channel, rawAt } of stations) lines.push(`${stamp},${channel},${rawAt(start).toFixed(0)}`)
    files.push({
      path: `raw/rounds/casing_${dayName(day)}.csv`,
      text: `${lines.join('\n')}\n`,
      encoding: 'utf8',
      receivedEpochMs: start + 3 * hourMs,
      from: 'casing crew',
      readings: stations.length,
    })
  }
  return files
}

function readBy(records: Records, weather: Weather, logger: string) {
  return records.wiring
    .filter((row) => row.logger === logger)
    .map(({ channel, sensor }) => {
      const sense = senseBy(records, weather)(sensor)
      const inverse = invertCalibration((records.chains.get(sensor) as readonly Chain[])[0] as Chain)
      return { channel, rawAt: (epochMs: number) => inverse(sense(epochMs), 15, 101.3) }
    })
}
