import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gridContours } from '#domain/ground/grid-contours.ts'
import { krigeAt } from '#domain/ground/kriging/krige-at.ts'
import { krigeLattice, type Lattice } from '#domain/ground/kriging/krige-lattice.ts'
import { buildSystem } from '#domain/ground/kriging/kriging-system.ts'
import type { Measurement } from './measurement.ts'
import { quantile } from './measurement.ts'

const programs = { r: 'Rscript', contour: 'gdal_contour' }

const variogram = {
  shape: 'spherical',
  partialSill: 110,
  rangeMetres: 400,
  nugget: 4,
  anisotropy: null,
} as const

/** Kriging with variance, beside gstat where R has it and else beside the direct solution; contour lines beside GDAL. */
export async function measureSurfaces(): Promise<Measurement[]> {
  const folder = await mkdtemp(join(tmpdir(), 'surfaces-'))
  try {
    return [await measureManyPoints(folder), measureFewPoints(), await measureContours(folder)]
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Spread as levelled points are (Halton, bases 2 and 3), a trough across them. */
function pointsOf(count: number) {
  const halton = (index: number, base: number) => {
    let [share, value] = [1, 0]
    for (let rest = index; rest > 0; rest = Math.floor(rest / base)) {
      share /= base
      value += share * (rest % base)
    }
    return value
  }
  return Array.from({ length: count }, (_, index) => {
    const [east, north] = [1000 * halton(index + 1, 2), 600 * halton(index + 1, 3)]
    const value = -30 * Math.exp(-((north - 250) ** 2) / 12_000) + 2 * Math.sin(index)
    return { east, north, value, errorVariance: 0 }
  })
}

function solve(points: ReturnType<typeof pointsOf>, lattice: Lattice) {
  const outcome = buildSystem(points, {
    variogram,
    drift: 'mean',
    farthestMetres: 1500,
    placeMetres: 1e-6,
    ways: null,
  })
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  const steps = krigeLattice(outcome.value, lattice, null)
  let step = steps.next()
  while (!step.done) step = steps.next()
  return { system: outcome.value, ...step.value }
}

/** Median of some runs after one that warms up, milliseconds. */
function timed(runs: number, work: () => unknown): number {
  work()
  const times = Array.from({ length: runs }, () => {
    const begun = performance.now()
    work()
    return performance.now() - begun
  })
  return quantile(times, 0.5)
}

const latticeOf = (columns: number, rows: number): Lattice => ({
  east: 1,
  north: 1,
  eastStepMetres: 998 / (columns - 1),
  northStepMetres: 598 / (rows - 1),
  columns,
  rows,
})

async function measureManyPoints(folder: string): Promise<Measurement> {
  const points = pointsOf(500)
  const lattice = latticeOf(400, 400)
  const seconds = timed(3, () => solve(points, lattice)) / 1000
  const { system, values, variances } = solve(points, lattice)
  const named = {
    name: 'ordinary kriging with variance, 500 points to 400 × 400 nodes',
    ours: seconds,
    unit: 's',
  }
  const peer = await krigeInR(folder, points, lattice)
  if (peer === null) {
    // Every 20th node, since all of them directly take as long as the peer that is missing.
    const begun = performance.now()
    let worst = 0
    for (let node = 0; node < values.length; node += 20) {
      const column = node % lattice.columns
      const row = (node - column) / lattice.columns
      const { value, variance } = krigeAt(
        system,
        lattice.east + column * lattice.eastStepMetres,
        lattice.north + row * lattice.northStepMetres,
      )
      assertNear(values[node], value, 1e-6)
      worst = Math.max(worst, Math.abs((variances[node] as number) / variance - 1))
    }
    return {
      ...named,
      peer: {
        name: 'the direct solution here, from a twentieth of the nodes (no R with gstat: apt-get install r-cran-gstat)',
        value: (20 * (performance.now() - begun)) / 1000,
      },
      goal: `as far below as can be; variances within 1 % (${(100 * worst).toFixed(2)} %)`,
    }
  }
  let [ofValue, ofVariance] = [0, 0]
  values.forEach((value, node) => {
    ofValue = Math.max(ofValue, Math.abs(value - (peer.values[node] as number)))
    ofVariance = Math.max(
      ofVariance,
      Math.abs((variances[node] as number) / (peer.variances[node] as number) - 1),
    )
  })
  assertNear(ofValue, 0, 1e-6)
  return {
    ...named,
    peer: { name: 'gstat in R, same points and nodes', value: peer.seconds },
    goal: `ratio at most 1/30 (0.0333); estimates within 1e-6 (${ofValue.toExponential(1)}), variances within 1 % (${(100 * ofVariance).toFixed(2)} %)`,
  }
}

function assertNear(actual: number | undefined, expected: number, within: number): void {
  if (!(Math.abs((actual ?? Number.NaN) - expected) <= within))
    throw new Error(`estimates must agree within ${within}: ${actual} and ${expected}`)
}

async function krigeInR(folder: string, points: ReturnType<typeof pointsOf>, lattice: Lattice) {
  const [input, output, script] = ['points.csv', 'grid.csv', 'krige.R'].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ]
  await writeFile(
    input,
    `x,y,z\n${points.map(({ east, north, value }) => `${east},${north},${value}`).join('\n')}\n`,
  )
  await writeFile(
    script,
    `suppressMessages({library(sp); library(gstat)})
d <- read.csv('${input}'); coordinates(d) <- ~x+y
g <- expand.grid(x=${lattice.east}+${lattice.eastStepMetres}*(0:${lattice.columns - 1}), y=${lattice.north}+${lattice.northStepMetres}*(0:${lattice.rows - 1}))
coordinates(g) <- ~x+y
t <- system.time(k <- krige(z~1, d, g, vgm(${variogram.partialSill}, 'Sph', ${variogram.rangeMetres}, ${variogram.nugget}), debug.level=0))
write.table(format(k@data, digits=15), '${output}', sep=',', quote=FALSE, row.names=FALSE, col.names=FALSE)
cat(t[['elapsed']])
`,
  )
  const { status, stdout } = spawnSync(programs.r, ['--vanilla', script], { encoding: 'utf8' })
  if (status !== 0) return null
  const rows = (await readFile(output, 'utf8')).trim().split('\n')
  const [values, variances] = [0, 1].map((column) => rows.map((row) => Number(row.split(',')[column]))) as [
    number[],
    number[],
  ]
  return { seconds: Number(stdout), values, variances }
}

function measureFewPoints(): Measurement {
  const points = pointsOf(40)
  return {
    name: 'ordinary kriging with variance, 40 points to 200 × 120 nodes',
    ours: timed(9, () => solve(points, latticeOf(200, 120))),
    unit: 'ms',
    peer: null,
    goal: 'under 30 ms',
  }
}

async function measureContours(folder: string): Promise<Measurement> {
  const side = 1000
  const height = (east: number, north: number) =>
    50 * Math.sin(east / 90) * Math.cos(north / 130) + 20 * Math.sin((east + north) / 37)
  const values = new Float64Array(side * side)
  for (let node = 0; node < values.length; node++)
    values[node] = Math.fround(height(node % side, Math.floor(node / side)))
  const grid = {
    origin: [0, 0] as const,
    cellMetres: 1,
    columns: side,
    rows: side,
    values,
    mask: new Uint8Array(values.length),
  }
  const levels = Array.from({ length: 141 }, (_, index) => index - 70)
  const name = `contour lines of 1000 × 1000 nodes, ${levels.length} levels`
  const ours = timed(5, () => gridContours(grid, levels))
  const goal = 'ratio at most 1.5'
  const [raw, header, lines] = ['grid.flt', 'grid.hdr', 'lines.fgb'].map((file) => join(folder, file)) as [
    string,
    string,
    string,
  ]
  await writeFile(raw, new Uint8Array(Float32Array.from(values).buffer))
  await writeFile(
    header,
    `ncols ${side}\nnrows ${side}\nxllcorner 0\nyllcorner 0\ncellsize 1\nNODATA_value -9999\nbyteorder LSBFIRST\n`,
  )
  const contour = () => {
    rmSync(lines, { force: true })
    return spawnSync(programs.contour, ['-q', '-i', '1', '-f', 'FlatGeobuf', raw, lines]).status
  }
  if (contour() !== 0)
    return { name: `${name} (no gdal_contour: apt-get install gdal-bin)`, ours, unit: 'ms', peer: null, goal }
  return { name, ours, unit: 'ms', peer: { name: 'gdal_contour', value: timed(3, contour) }, goal }
}
