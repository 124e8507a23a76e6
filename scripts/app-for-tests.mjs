// Before the end-to-end tests: the app as a user gets it.
import { buildApp, isStale } from './build-app.mjs';

export default async function setup() {
  if (isStale()) await buildApp({ quiet: true });
}
