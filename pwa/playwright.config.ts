import { defineConfig } from '@playwright/test'

// Debian's Chromium: Playwright's own builds are not to be had from a package registry.
export const chromium = {
  executablePath: '/usr/bin/chromium',
  args: [
    '--no-sandbox', // as root Chromium refuses to start without it
    '--disable-quic',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
  ],
}

export default defineConfig({
  testDir: './e2e',
  testMatch: '*.spec.ts',
  workers: 1,
  retries: 0,
  timeout: 90_000,
  expect: { timeout: 10_000 },
  reporter: [['list']],
  outputDir: '../build/e2e',
  use: {
    viewport: { width: 390, height: 844 },
    serviceWorkers: 'allow',
    trace: 'retain-on-failure',
    launchOptions: chromium,
    actionTimeout: 20_000,
  },
})
