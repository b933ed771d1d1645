using WaterScript.Cli;

return CommandLine.Run(args, Terminal.OfProcess());
