using ParticleLims.Web.Start;

return await WebProgram.RunAsync(args);
