// Writes what the program is made of, from the lock file, as CycloneDX 1.6 (ECMA-424): `npm run -s dependencies`.
// Plain JavaScript without imports of ours, so that it runs where nothing is installed.
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** Components of a lock file of npm's third version, each package and version once, by name. */
export function describeDependencies(lock) {
  const components = new Map()
  for (const [path, entry] of Object.entries(lock.packages)) {
    const name = path.split('node_modules/').at(-1)
    if (path === '' || entry.link) continue
    const purl = `pkg:npm/${name.replace('@', '%40')}@${entry.version}`
    // What one place needs to run is needed, whatever another place needs it for.
    const scope = entry.dev || entry.devOptional ? 'excluded' : entry.optional ? 'optional' : 'required'
    const earlier = components.get(purl)
    if (earlier && ranks.indexOf(earlier.scope) <= ranks.indexOf(scope)) continue
    components.set(purl, {
      type: 'library',
      'bom-ref': purl,
      ...nameOf(name),
      version: entry.version,
      scope,
      purl,
      ...(entry.integrity && { hashes: entry.integrity.split(' ').map(hashOf) }),
      ...(entry.license && { licenses: [licenceOf(entry.license)] }),
    })
  }
  const { name, version, license } = lock.packages['']
  return {
    bomFormat: 'CycloneDX',
    specVersion: '1.6',
    version: 1,
    metadata: {
      component: { type: 'application', 'bom-ref': name, name, version, licenses: [licenceOf(license)] },
    },
    components: [...components.values()].sort((left, right) => (left.purl < right.purl ? -1 : 1)),
  }
}

const ranks = ['required', 'optional', 'excluded']

const nameOf = (name) =>
  name.startsWith('@') ? { group: name.split('/')[0], name: name.split('/')[1] } : { name }

/** Subresource Integrity writes base64 where CycloneDX writes hexadecimal. */
function hashOf(integrity) {
  const [algorithm, digest] = integrity.split(/-(.*)/)
  return { alg: algorithm.replace(/^sha/, 'SHA-'), content: Buffer.from(digest, 'base64').toString('hex') }
}

const licenceOf = (licence) =>
  / (OR|AND|WITH) /.test(licence) ? { expression: licence } : { license: { id: licence } }

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const lock = JSON.parse(readFileSync(new URL('../package-lock.json', import.meta.url), 'utf8'))
  console.log(JSON.stringify(describeDependencies(lock), null, 2))
}
