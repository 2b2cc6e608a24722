declare const __GURDYBENCH_VERSION__: string;

/** The version in package.json, put in by the build. */
export const toolVersion: string = __GURDYBENCH_VERSION__;
