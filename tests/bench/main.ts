import { access, mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import { generateSample } from '../../sample-site/generate.ts'
import { measureAlerts } from './alerts.ts'
import { measureBrowser } from './browser.ts'
import { measureBrowserEngine } from './browser-engine.ts'
import { measureFieldWork } from './field-work.ts'
import { measureIntakeAndPublishing } from './intake-and-publishing.ts'
import { lineOf, type Measurement, ratioOf } from './measurement.ts'
import { measureRecompute } from './recompute.ts'
import { measureReduction } from './reduction.ts'
import { measureReportWriting } from './report-writing.ts'
import { measureReview } from './review.ts'
import { measureSurfaces } from './surfaces.ts'
import { measureWhatIf } from './what-if.ts'

const asJson = process.argv.includes('--json')
const rawFolder = join('.cache', 'bench', 'raw')

const say = (measurements: readonly Measurement[]): void => {
  for (const measurement of measurements)
    console.log(
      asJson ? JSON.stringify({ ...measurement, ratio: ratioOf(measurement) }) : lineOf(measurement),
    )
}

await mkdir(rawFolder, { recursive: true })
await access(join(rawFolder, 'deliveries.csv')).catch(() => generateSample(rawFolder, () => {}))
say(await measureIntakeAndPublishing(rawFolder))
say(await measureReduction())
say(await measureSurfaces())
say(await measureBrowserEngine())
say(await measureRecompute())
say(await measureAlerts())
say(await measureReview())
say(measureReportWriting())
say(await measureBrowser())
say(await measureWhatIf())
say(await measureFieldWork())
