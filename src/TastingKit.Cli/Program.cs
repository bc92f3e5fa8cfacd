Console.WriteLine("not yet");
