import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { type AllowedHost, readAllowedHosts } from './address-guard.ts'
import { type MailSettings, readMailSettings } from './mail-settings.ts'

/** How alerts leave this server, as whoever runs it says. */
export interface DeliverySettings {
  /** Null: no mail. */
  readonly mail: MailSettings | null
  /** Hosts of webhooks and push services that may be private or without TLS. */
  readonly allowedHosts: readonly AllowedHost[]
}

export const noDelivery: DeliverySettings = { mail: null, allowedHosts: [] }

/** Reads the delivery's part of the environment; nothing set is nothing sent by mail, and to public addresses alone. */
export function readDeliverySettings(
  environment: Readonly<Record<string, string | undefined>>,
): Outcome<DeliverySettings> {
  const mail = readMailSettings(environment)
  const hosts = readAllowedHosts(environment.STILLGROUND_WEBHOOK_HOSTS ?? '')
  if (mail.ok && hosts.ok) return accept({ mail: mail.value, allowedHosts: hosts.value })
  return reject(
    ...(mail.ok ? [] : mail.issues),
    ...(hosts.ok
      ? []
      : hosts.issues.map((issue) => ({
          ...issue,
          message: `STILLGROUND_WEBHOOK_HOSTS: ${issue.message}`,
        }))),
  )
}
