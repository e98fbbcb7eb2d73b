import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { finishSteps } from '#domain/finish-steps.ts'
import { type ContourBand, meshContours } from '#domain/ground/contours.ts'
import { areaAndCentroid } from '#domain/ground/convex-hull.ts'
import { gridMesh } from '#domain/ground/grid-mesh.ts'
import { krigeAt } from '#domain/ground/kriging/krige-at.ts'
import { krigeLattice, type Lattice } from '#domain/ground/kriging/krige-lattice.ts'
import { buildSystem } from '#domain/ground/kriging/kriging-system.ts'
import type { Variogram } from '#domain/ground/kriging/variogram.ts'
import type { Measurement } from './measurement.ts'
import { quantile } from './measurement.ts'

const programs = { r: 'Rscript', contour: 'gdal_contour', features: 'ogrinfo' }

const spherical: Variogram = {
  shape: 'spherical',
  partialSill: 110,
  rangeMetres: 400,
  nugget: 4,
  anisotropy: null,
}
/** Without an edge: every point is met by every node. */
const exponential: Variogram = { ...spherical, shape: 'exponential', rangeMetres: 130 }

/** Kriging with variance, beside gstat where R has it and else beside the direct solution; contour lines beside GDAL. */
export async function measureSurfaces(): Promise<Measurement[]> {
  const folder = await mkdtemp(join(tmpdir(), 'surfaces-'))
  try {
    return [
      await measureManyPoints(folder, spherical, 'Sph'),
      await measureManyPoints(folder, exponential, 'Exp'),
      measureFewPoints(),
      await measureContours(folder),
    ]
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

function solve(points: ReturnType<typeof pointsOf>, lattice: Lattice, variogram: Variogram) {
  const outcome = buildSystem(points, {
    variogram,
    drift: 'mean',
    farthestMetres: 1500,
    placeMetres: 1e-6,
    ways: null,
  })
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return { system: outcome.value, ...finishSteps(krigeLattice(outcome.value, lattice, null)) }
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

async function measureManyPoints(
  folder: string,
  variogram: Variogram,
  nameInR: string,
): Promise<Measurement> {
  const points = pointsOf(500)
  const lattice = latticeOf(400, 400)
  const seconds = timed(3, () => solve(points, lattice, variogram)) / 1000
  const { system, values, variances } = solve(points, lattice, variogram)
  const named = {
    name: `ordinary kriging with variance, ${variogram.shape}, 500 points to 400 × 400 nodes`,
    ours: seconds,
    unit: 's',
  }
  const peer = await krigeInR(folder, points, lattice, { ...variogram, nameInR })
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

async function krigeInR(
  folder: string,
  points: ReturnType<typeof pointsOf>,
  lattice: Lattice,
  { partialSill, nameInR, rangeMetres, nugget }: Variogram & { readonly nameInR: string },
) {
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
t <- system.time(k <- krige(z~1, d, g, vgm(${partialSill}, '${nameInR}', ${rangeMetres}, ${nugget}), debug.level=0))
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
    ours: timed(9, () => solve(points, latticeOf(200, 120), spherical)),
    unit: 'ms',
    peer: null,
    goal: 'under 30 ms',
  }
}

/** Lines and bands as the plan cuts them, beside both of GDAL's; the areas of the bands must agree. */
async function measureContours(folder: string): Promise<Measurement> {
  const side = 1000
  const height = (east: number, north: number) =>
    50 * Math.sin(east / 90) * Math.cos(north / 130) + 20 * Math.sin((east + north) / 37)
  const values = new Float64Array(side * side)
  for (let node = 0; node < values.length; node++)
    values[node] = Math.fround(height(node % side, Math.floor(node / side)))
  const mask = new Uint8Array(values.length)
  const grid = { origin: [0, 0] as const, cellMetres: 1, columns: side, rows: side, values, mask }
  const levels = Array.from({ length: 141 }, (_, index) => index - 70)
  const name = `of 1000 × 1000 nodes, ${levels.length} levels, with the mesh they are cut from`
  const both = {
    name: `contour lines and bands ${name}`,
    ours: timed(3, () => meshContours(gridMesh(grid), -70, 70, levels)),
    unit: 'ms',
    goal: 'ratio at most 1.5',
  }
  const [raw, header, lineFile, bandFile] = ['grid.flt', 'grid.hdr', 'lines.fgb', 'bands.fgb'].map((file) =>
    join(folder, file),
  ) as [string, string, string, string]
  await writeFile(raw, new Uint8Array(Float32Array.from(values).buffer))
  await writeFile(
    header,
    `ncols ${side}\nnrows ${side}\nxllcorner 0\nyllcorner 0\ncellsize 1\nNODATA_value -9999\nbyteorder LSBFIRST\n`,
  )
  const contour = (file: string, words: readonly string[]) => {
    rmSync(file, { force: true })
    return spawnSync(programs.contour, ['-q', '-i', '1', ...words, '-f', 'FlatGeobuf', raw, file]).status
  }
  if (contour(lineFile, []) !== 0)
    return { ...both, name: `${both.name} (no gdal_contour: apt-get install gdal-bin)`, peer: null }
  const ofLines = timed(3, () => contour(lineFile, []))
  const ofBands = timed(2, () => contour(bandFile, ['-p', '-amin', 'low', '-amax', 'high']))
  const off = greatestAreaApart(meshContours(gridMesh(grid), -70, 70, levels).bands, bandFile)
  return {
    ...both,
    goal: `${both.goal}; areas of bands agree to ${off}, with the half node that the peer draws beyond the outermost`,
    peer: { name: 'gdal_contour, once for lines and once for polygons', value: ofLines + ofBands },
  }
}

/** Of all bands the greatest difference of area, as a share of it or of 1000 m²; the peer cuts squares, the plan triangles. */
function greatestAreaApart(bands: readonly ContourBand[], file: string): string {
  const { stdout } = spawnSync(
    programs.features,
    ['-ro', '-q', '-geom=NO', file, '-sql', 'SELECT low, high, OGR_GEOM_AREA FROM contour'],
    { encoding: 'utf8', maxBuffer: 1e9 },
  )
  const theirs = new Map<number, number>()
  let band = Number.NaN
  for (const line of stdout.split('\n')) {
    const [, word, number] = /^ {2}(\S+) \(Real\) = (\S+)/.exec(line) ?? []
    // The lowest band has no lower end there.
    if (word === 'high') band = Math.ceil(Number(number))
    if (word === 'OGR_GEOM_AREA') theirs.set(band, (theirs.get(band) ?? 0) + Number(number))
  }
  let worst = 0
  for (const { highMm, polygons } of bands) {
    const area = polygons.flat().reduce((sum, ring) => sum + areaAndCentroid(ring.slice(1)).area, 0)
    const apart = Math.abs(area - (theirs.get(Math.ceil(highMm)) ?? 0))
    worst = Math.max(worst, apart / Math.max(area, 1000))
  }
  return `${(100 * worst).toFixed(3)} %`
}
