import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { argv } from 'node:process'
import { fileURLToPath } from 'node:url'
import { dayName, isoText, type SampleFile } from './files/file-text.ts'
import { dockNetworkFile, memoryFile } from './files/long-files.ts'
import { casingFiles, dipFiles, levellingFiles } from './files/round-files.ts'
import { weeks } from './files/weeks.ts'
import { eastNetworkFile, streetFile, terraceFile } from './files/wide-files.ts'
import { fillMemory } from './logging/logged-channels.ts'
import { sendByRadio } from './logging/radio-delivery.ts'
import { readRecords } from './logging/read-records.ts'
import { dayMs, hourMs, programme } from './models/programme.ts'
import { createWeather } from './models/weather.ts'

const east = ['LG-01', 'LG-02', 'LG-05', 'LG-06', 'LG-09', 'LG-10', 'LG-11']
const dock = ['LG-03', 'LG-07', 'LG-08', 'LG-17', 'LG-18', 'LG-19', 'LG-20']
const street: Readonly<Record<string, readonly string[]>> = {
  piezometers: ['LG-04'],
  extensometers: ['LG-12', 'LG-13'],
  tilt: ['LG-14', 'LG-15', 'LG-16'],
  cracks: ['LG-21', 'LG-22'],
}
const terrace = ['LG-23', 'LG-24', 'LG-25', 'LG-26']
const interruptedWeek = '20270517'
const strangerWeek = '20270719'

/**
 * Makes the raw files of Skarrow Quay and `deliveries.csv`, the order and instants in which they arrive. The same
 * records give the same bytes every time. `onProgress` is told the share done, 0 to 1.
 */
export async function generateSample(
  targetFolder: string,
  onProgress: (share: number) => void = () => undefined,
): Promise<{ files: number; readings: number }> {
  const records = readRecords(dirname(fileURLToPath(import.meta.url)))
  const weather = createWeather()
  const loggers = [...east, ...dock, ...Object.values(street).flat(), ...terrace]
  const memories = new Map<string, ReturnType<typeof fillMemory>>()
  for (const [i, id] of loggers.entries()) {
    memories.set(id, fillMemory(id, records, weather))
    onProgress((0.5 * (i + 1)) / loggers.length)
    await breathe()
  }
  const memoryOf = (id: string) => memories.get(id) as ReturnType<typeof fillMemory>
  const byRadio = (id: string) => {
    const memory = memoryOf(id)
    return { memory, receipts: sendByRadio(id, memory.scans, records) }
  }
  const byCable = (id: string) => ({ memory: memoryOf(id), receipts: null })
  const networks = {
    east: east.map(byRadio),
    dock: dock.map(byRadio),
    street: Object.entries(street).map(([group, ids]) => [group, ids.map(byCable)] as const),
    terrace: terrace.map(byCable),
  }

  const arrived: Omit<SampleFile, 'text'>[] = []
  const write = ({ text, ...file }: SampleFile) => {
    const path = join(targetFolder, file.path)
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, text, file.encoding)
    arrived.push(file)
  }
  const everyWeek = weeks()
  for (const [i, week] of everyWeek.entries()) {
    const name = dayName(week.fromEpochMs)
    const eastFile = eastNetworkFile(networks.east, week)
    if (name === interruptedWeek) write(interrupted(eastFile))
    write(
      name === interruptedWeek
        ? { ...eastFile, receivedEpochMs: eastFile.receivedEpochMs + 2 * hourMs }
        : eastFile,
    )
    write(dockNetworkFile(networks.dock, week, name === strangerWeek ? strangerRows(week.fromEpochMs) : []))
    // LG-03 also has a mobile modem of its own, which sends the same readings again.
    const modem = {
      receivedEpochMs: Math.min(week.untilEpochMs + 6 * hourMs, programme.endsAt),
      from: 'modem of LG-03',
      folder: 'modem',
    }
    write(memoryFile(memoryOf('LG-03'), week.fromEpochMs, week.untilEpochMs, modem))
    for (const [group, members] of networks.street) write(streetFile(group, members, week))
    write(terraceFile(networks.terrace, week))
    onProgress(0.5 + (0.45 * (i + 1)) / everyWeek.length)
    await breathe()
  }
  const visit = {
    receivedEpochMs: programme.memoryReadAt + hourMs / 4,
    from: 'memory download at LG-19',
    folder: 'memory',
  }
  write(memoryFile(memoryOf('LG-19'), Date.UTC(2027, 7, 3), programme.memoryReadAt, visit))
  for (const files of [levellingFiles, dipFiles, casingFiles])
    for (const file of files(records, weather)) write(file)

  arrived.sort((a, b) => a.receivedEpochMs - b.receivedEpochMs || (a.path < b.path ? -1 : 1))
  const rows = arrived.map(({ path, receivedEpochMs, from }) => `${path},${isoText(receivedEpochMs)},${from}`)
  writeFileSync(join(targetFolder, 'deliveries.csv'), `${['file,receivedAt,from', ...rows].join('\n')}\n`)
  onProgress(1)
  return { files: arrived.length, readings: arrived.reduce((sum, { readings }) => sum + readings, 0) }
}

/** The line broke while the file was being sent: the last row stops half way. The whole file follows two hours later. */
function interrupted(file: SampleFile): SampleFile {
  const whole = file.text.lastIndexOf('\n', Math.floor(file.text.length * 0.62))
  return {
    ...file,
    path: file.path.replace('raw/east/', 'raw/east/interrupted/'),
    text: file.text.slice(0, whole + 400),
    readings: 0,
  }
}

/** A logger of the neighbouring works was heard for a day; nobody has registered it here. */
function strangerRows(weekFrom: number): string[] {
  const from = weekFrom + 3 * dayMs
  return Array.from({ length: 24 }, (_, hour) => {
    const at = from + hour * hourMs
    return `${isoText(at)},SK7190,CH01,${(12.5 + (hour % 5) * 0.01).toFixed(3)},${isoText(at + 31_000)}`
  })
}

/** Lets a server that makes the files answer requests between two pieces of work. */
const breathe = () => new Promise<void>((resolve) => setImmediate(resolve))

if (argv[1] && fileURLToPath(import.meta.url) === argv[1]) {
  const folder = argv[2]
  if (!folder) throw new Error('Name the folder for the files: generate.ts FOLDER')
  const { files, readings } = await generateSample(folder)
  process.stdout.write(`${files} files, ${readings} readings in ${folder}\n`)
}
