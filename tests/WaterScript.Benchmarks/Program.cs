using BenchmarkDotNet.Running;
using WaterScript.Benchmarks;

// "estate CONTROLLERS" prints a made-up site, for measuring the published program.
if (args is ["estate", var controllers] && int.TryParse(controllers, out var count)) Console.Write(LargeSite.Estate(count));
else BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
