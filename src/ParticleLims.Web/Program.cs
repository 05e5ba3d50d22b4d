var application = WebApplication.CreateBuilder(args).Build();
await application.RunAsync();
