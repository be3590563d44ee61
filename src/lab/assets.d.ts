declare module '*.css' {
  const text: string;
  export default text;
}
declare module '*.woff2' {
  const address: string;
  export default address;
}
declare module 'plotly.js/dist/plotly-cartesian.min.js' {
  const plotly: unknown;
  export default plotly;
}
