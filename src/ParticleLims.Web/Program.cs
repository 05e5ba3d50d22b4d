using ParticleLims.Web.Shell;

return await WebProgram.RunAsync(args);
