import { resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import {
  type DeliverySettings,
  noDelivery,
  readDeliverySettings,
} from './alerts/delivery/delivery-settings.ts'

/** Everything that the environment and the command line may say; nothing else reads them. */
export interface Settings {
  readonly host: string
  readonly port: number
  /** Names and addresses, besides loopback and `host`, by which browsers may ask for this server. */
  readonly names: readonly string[]
  /** A proxy that speaks TLS stands in front; what it says of a connection is believed. */
  readonly behindTls: boolean
  /** While only this machine reaches the server and nobody has an account, the page on it may change things. */
  readonly openForChanges: boolean
  /** By which people and programs elsewhere open the page, without a slash at its end; null: not known. */
  readonly address: string | null
  /** Print a link that makes one more administrator of every site. */
  readonly administratorLink: boolean
  readonly dataFolder: string
  /** Site folders to load besides the sample. */
  readonly siteFolders: readonly string[]
  readonly withSample: boolean
  /** How alerts leave this server. */
  readonly delivery: DeliverySettings
  /** Serve the web part from its sources, rebuilt as they change. */
  readonly development: boolean
}

export const projectFolder = fileURLToPath(new URL('..', import.meta.url))

/** Reads the process's settings; every fault is reported with the name it was given under. */
export function readSettings(
  environment: Readonly<Record<string, string | undefined>>,
  commandLine: readonly string[],
): Outcome<Settings> {
  const issues: Issue[] = []
  const siteFolders: string[] = []
  let development = false
  let withSample = true
  let openForChanges = false
  let administratorLink = false
  for (let at = 0; at < commandLine.length; at++) {
    const word = commandLine[at]
    if (word === '--dev') development = true
    else if (word === '--no-sample') withSample = false
    else if (word === '--open-for-changes') openForChanges = true
    else if (word === '--administrator-link') administratorLink = true
    else if (word === '--site') {
      const folder = commandLine[++at]
      if (folder === undefined)
        issues.push({ code: 'folder-expected', message: '--site needs the path of a site folder after it.' })
      else siteFolders.push(resolve(folder))
    } else
      issues.push({
        code: 'option-unknown',
        message: `${word} is not an option. There are --site FOLDER, --no-sample, --open-for-changes, --administrator-link and --dev.`,
      })
  }
  const delivery = readDeliverySettings(environment)
  if (!delivery.ok) issues.push(...delivery.issues)
  const portText = environment.STILLGROUND_PORT ?? '8477'
  const port = Number(portText)
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    issues.push({
      code: 'port-expected',
      message: `STILLGROUND_PORT is "${portText}"; a port from 0 to 65535 is expected.`,
      value: portText,
    })
  const tlsText = environment.STILLGROUND_BEHIND_TLS ?? 'no'
  if (tlsText !== 'yes' && tlsText !== 'no')
    issues.push({
      code: 'yes-or-no-expected',
      message: `STILLGROUND_BEHIND_TLS is "${tlsText}"; yes or no is expected.`,
      value: tlsText,
    })
  const reach = {
    host: environment.STILLGROUND_HOST ?? '127.0.0.1',
    names: (environment.STILLGROUND_NAMES ?? '')
      .split(',')
      .flatMap((name) => name.trim().toLowerCase() || []),
    behindTls: tlsText === 'yes',
  }
  if (openForChanges && !onlyHere(reach))
    issues.push({
      code: 'open-beyond-loopback',
      message:
        '--open-for-changes lets whoever opens the page change everything, so it is taken only while the server listens on this machine alone. Leave it out, or unset STILLGROUND_HOST, STILLGROUND_NAMES and STILLGROUND_BEHIND_TLS.',
    })
  const addressText = environment.STILLGROUND_ADDRESS
  const address = addressText === undefined ? usualAddress(reach, port) : readAddress(addressText)
  if (addressText !== undefined && address === null)
    issues.push({
      code: 'address-expected',
      message: `STILLGROUND_ADDRESS is "${addressText}"; the address of the page is expected, such as https://works.example, with nothing after host and port.`,
      value: addressText,
    })
  if (issues.length > 0) return reject(...issues)
  return accept({
    ...reach,
    port,
    openForChanges,
    address,
    administratorLink,
    dataFolder: resolve(environment.STILLGROUND_DATA ?? `${projectFolder}.stillground`),
    siteFolders,
    withSample,
    delivery: delivery.ok ? delivery.value : noDelivery,
    development,
  })
}

/** Whether only this machine reaches the server: it listens on loopback, and no proxy or name lets others ask for it. */
export const onlyHere = ({
  host,
  names,
  behindTls,
}: Pick<Settings, 'host' | 'names' | 'behindTls'>): boolean =>
  ['127.0.0.1', '::1', 'localhost'].includes(host) && names.length === 0 && !behindTls

/** What can be told of the page's address where nobody says it: the first name over TLS, else where the server listens. */
function usualAddress(
  { host, names, behindTls }: Pick<Settings, 'host' | 'names' | 'behindTls'>,
  port: number,
): string | null {
  if (behindTls) return names[0] ? `https://${names[0]}` : null
  return port === 0 ? null : `http://${host.includes(':') ? `[${host}]` : host}:${port}`
}

function readAddress(text: string): string | null {
  if (!URL.canParse(text)) return null
  const { protocol, origin, pathname, search, hash, username, password } = new URL(text)
  const isBare = pathname === '/' && !search && !hash && !username && !password
  return isBare && (protocol === 'https:' || protocol === 'http:') ? origin : null
}
