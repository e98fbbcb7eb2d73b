import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { drawContours, meshContours } from '#domain/ground/contours.ts'
import { areaAndCentroid } from '#domain/ground/convex-hull.ts'
import { gridMesh } from '#domain/ground/grid-mesh.ts'
import { krigeAt } from '#domain/ground/kriging/krige-at.ts'
import { krigeLattice, type Lattice } from '#domain/ground/kriging/krige-lattice.ts'
import { buildSystem } from '#domain/ground/kriging/kriging-system.ts'
import type { Variogram } from '#domain/ground/kriging/variogram.ts'
import type { VariogramShape } from '#domain/ground/kriging/variogram-shape.ts'
import { type LevelLine, levelLines } from '#domain/ground/level-lines.ts'
import { buildSettlementSurface } from '#domain/ground/settlement-surface.ts'
import type { Measurement } from './measurement.ts'
import { quantile } from './measurement.ts'

const programs = { r: 'Rscript', contour: 'gdal_contour' }

/** Each with its name in R. The first has an end to its reach; the second has none. */
const variograms = {
  spherical: { shape: 'spherical', partialSill: 110, rangeMetres: 400, nugget: 4, anisotropy: null },
  'exponential, longest along 060°': {
    shape: 'exponential',
    partialSill: 110,
    rangeMetres: 200,
    nugget: 4,
    anisotropy: { azimuthDegrees: 60, ratio: 0.5 },
  },
} as const satisfies Record<string, Variogram>

const namesInR: Partial<Record<VariogramShape, string>> = { spherical: 'Sph', exponential: 'Exp' }

/** Kriging with variance, beside gstat where R has it and else beside the direct solution; contour lines beside GDAL. */
export async function measureSurfaces(): Promise<Measurement[]> {
  const folder = await mkdtemp(join(tmpdir(), 'surfaces-'))
  try {
    return [
      ...(await measureManyPoints(folder)),
      measureFewPoints(),
      measureTriangulation(),
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

function solve(
  points: ReturnType<typeof pointsOf>,
  lattice: Lattice,
  variogram: Variogram = variograms.spherical,
) {
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

async function measureManyPoints(folder: string): Promise<Measurement[]> {
  const measured: Measurement[] = []
  for (const [name, variogram] of Object.entries(variograms))
    measured.push(await measureVariogram(folder, name, variogram))
  return measured
}

async function measureVariogram(folder: string, kind: string, variogram: Variogram): Promise<Measurement> {
  const points = pointsOf(500)
  const lattice = latticeOf(400, 400)
  const seconds = timed(3, () => solve(points, lattice, variogram)) / 1000
  const { system, values, variances } = solve(points, lattice, variogram)
  const named = {
    name: `ordinary kriging with variance, 500 points to 400 × 400 nodes, ${kind}`,
    ours: seconds,
    unit: 's',
  }
  const peer = await krigeInR(folder, points, lattice, variogram)
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
  { shape, partialSill, rangeMetres, nugget, anisotropy }: Variogram,
) {
  const along = anisotropy ? `, anis=c(${anisotropy.azimuthDegrees}, ${anisotropy.ratio})` : ''
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
t <- system.time(k <- krige(z~1, d, g, vgm(${partialSill}, '${namesInR[shape]}', ${rangeMetres}, ${nugget}${along}), debug.level=0))
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

function measureTriangulation(): Measurement {
  const points = pointsOf(60).map(({ east, north, value }, index) => ({
    id: `P${index}`,
    eastingMetres: east,
    northingMetres: north,
    valueMm: value,
    standardUncertaintyMm: 0.7,
    late: false,
  }))
  const barriers = [
    [
      [0, 250],
      [600, 250],
    ],
  ] as const
  return {
    name: 'triangulated surface of 60 points cut by a wall, with its contours',
    ours: timed(60, () => {
      const surface = buildSettlementSurface(points, { barriers, longestSideMetres: 300 })
      if (!surface.ok) throw new Error(surface.issues[0]?.message)
      drawContours(surface.value)
    }),
    unit: 'ms',
    peer: null,
    goal: 'under 5 ms',
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
  const ours = timed(5, () => levelLines(gridMesh(grid), levels))
  const withBands = timed(3, () => meshContours(gridMesh(grid), -70, 70, levels))
  const goal = `ratio at most 1.5; with the bands as the plan draws them ${Math.round(withBands)} ms`
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
    return spawnSync(programs.contour, ['-q', '-i', '1', '-a', 'level', '-f', 'FlatGeobuf', raw, lines])
      .status
  }
  if (contour() !== 0)
    return { name: `${name} (no gdal_contour: apt-get install gdal-bin)`, ours, unit: 'ms', peer: null, goal }
  const apart = await areasApart(levelLines(gridMesh(grid), levels), levels, raw, folder)
  return {
    name,
    ours,
    unit: 'ms',
    peer: { name: 'gdal_contour', value: timed(3, contour) },
    goal: `${goal}; areas inside closed lines agree to ${apart.toExponential(0)}`,
  }
}

/** Greatest difference of the area inside a level's closed lines from that of GDAL's, as a share of the grid. */
async function areasApart(
  ours: readonly (readonly LevelLine[])[],
  levels: readonly number[],
  raw: string,
  folder: string,
): Promise<number> {
  const file = join(folder, 'lines.geojson')
  spawnSync(programs.contour, ['-q', '-i', '1', '-a', 'level', '-f', 'GeoJSON', raw, file])
  const areas = new Map<number, number>()
  const drawn: {
    readonly features: readonly {
      readonly properties: { readonly level: number }
      readonly geometry: { readonly coordinates: readonly (readonly [number, number])[] }
    }[]
  } = JSON.parse(await readFile(file, 'utf8'))
  for (const { properties, geometry } of drawn.features) {
    const [first, ...rest] = geometry.coordinates
    const last = rest.at(-1)
    if (first?.[0] !== last?.[0] || first?.[1] !== last?.[1]) continue
    const area = Math.abs(areaAndCentroid(rest).area)
    areas.set(properties.level, (areas.get(properties.level) ?? 0) + area)
  }
  const apart = levels.map((level, index) => {
    const own = (ours[index] ?? []).filter(({ closed }) => closed)
    const area = own.reduce(
      (sum, { coordinates }) => sum + Math.abs(areaAndCentroid(pairsOf(coordinates)).area),
      0,
    )
    return Math.abs(area - (areas.get(level) ?? 0)) / 1e6
  })
  const worst = Math.max(...apart)
  assertNear(worst, 0, 1e-3)
  return worst
}

const pairsOf = (coordinates: readonly number[]) =>
  Array.from(
    { length: coordinates.length / 2 - 1 },
    (_, at) => [coordinates[2 * at] as number, coordinates[2 * at + 1] as number] as const,
  )
